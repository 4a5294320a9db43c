import { choleskyInPlace, solveLower, solveLowerTransposed } from "./triangularSolve.js";

/**
 * A symmetric positive definite matrix in the shape of an arrow: a chain of equal blocks, each touching the next
 * through a diagonal matrix at most, and a border that may touch them all.
 */
export interface BlockArrow {
  readonly blocks: number;
  readonly size: number;
  readonly border: number;
  /** The blocks one after the other, size × size, row-major; the lower triangles are read. */
  readonly diagonal: Float64Array;
  /** Entry i of block b: what couples it with entry i of block b − 1 (nothing for the first block). */
  readonly link: Float64Array;
  /** Rows of the blocks against the border: (blocks·size) × border. */
  readonly edge: Float64Array;
  /** border × border, the lower triangle is read. */
  readonly corner: Float64Array;
}

/** The Cholesky factor of an arrow: that of every block, L⁻¹·edge, and that of the Schur complement. */
export interface ArrowFactor extends BlockArrow {}

/** All zeros, to be added to. */
export function createBlockArrow(blocks: number, size: number, border: number): BlockArrow {
  return {
    blocks,
    size,
    border,
    diagonal: new Float64Array(blocks * size * size),
    link: new Float64Array(blocks * size),
    edge: new Float64Array(blocks * size * border),
    corner: new Float64Array(border * border),
  };
}

/**
 * Cholesky factor of the arrow with `shift` added to its diagonal (blocks first, then border). `undefined` where it
 * is not positive definite. Work: blocks·size²·(size + border) + blocks·size·border², where a dense factor would
 * take (blocks·size + border)³/3. Source: Golub & Van Loan (2013) §4.3, §4.5.
 */
export function factoriseArrow(arrow: BlockArrow, shift: ArrayLike<number>): ArrowFactor | undefined {
  const { blocks, size, border, link } = arrow;
  const diagonal = arrow.diagonal.slice();
  const edge = arrow.edge.slice();
  const corner = arrow.corner.slice();
  const rows = blocks * size;
  const inverse = new Float64Array(size * size);
  const before = new Float64Array(size * border);
  for (let b = 0; b < blocks; b++) {
    const at = b * size * size;
    const start = b * size * border;
    for (let i = 0; i < size; i++) diagonal[at + i * size + i] += shift[b * size + i];
    if (isLinked(arrow, b)) {
      inverse.fill(0);
      for (let i = 0; i < size; i++) inverse[i * size + i] = 1;
      solveLower(diagonal, at - size * size, size, inverse, 0, size);
      solveLowerTransposed(diagonal, at - size * size, size, inverse, 0, size);
      before.set(edge.subarray(start - size * border, start));
      solveLowerTransposed(diagonal, at - size * size, size, before, 0, border);
      for (let i = 0; i < size; i++) {
        const left = link[b * size + i];
        for (let j = 0; j <= i; j++) {
          diagonal[at + i * size + j] -= left * inverse[i * size + j] * link[b * size + j];
        }
        for (let k = 0; k < border; k++) edge[start + i * border + k] -= left * before[i * border + k];
      }
    }
    if (!choleskyInPlace(diagonal, at, size)) return undefined;
    solveLower(diagonal, at, size, edge, start, border);
  }
  for (let k = 0; k < border; k++) corner[k * border + k] += shift[rows + k];
  subtractSquare(edge, rows, border, corner);
  if (!choleskyInPlace(corner, 0, border)) return undefined;
  return { blocks, size, border, diagonal, link, edge, corner };
}

/** Replaces `x` (blocks first, then border) by the solution of A·y = x. */
export function solveArrow(factor: ArrowFactor, x: Float64Array): void {
  const { blocks, size, border, diagonal, link, edge, corner } = factor;
  const rows = blocks * size;
  const step = new Float64Array(size);
  for (let b = 0; b < blocks; b++) {
    if (isLinked(factor, b)) {
      step.set(x.subarray((b - 1) * size, b * size));
      solveLowerTransposed(diagonal, (b - 1) * size * size, size, step, 0, 1);
      for (let i = 0; i < size; i++) x[b * size + i] -= link[b * size + i] * step[i];
    }
    solveLower(diagonal, b * size * size, size, x, b * size, 1);
  }
  for (let i = 0; i < rows; i++) {
    const value = x[i];
    if (value === 0) continue;
    for (let k = 0; k < border; k++) x[rows + k] -= edge[i * border + k] * value;
  }
  solveLower(corner, 0, border, x, rows, 1);
  solveLowerTransposed(corner, 0, border, x, rows, 1);
  for (let i = 0; i < rows; i++) {
    for (let k = 0; k < border; k++) x[i] -= edge[i * border + k] * x[rows + k];
  }
  backSubstituteChain(factor, x, 1);
}

/** X ← L⁻ᵀ·X for the chain of blocks, X having `width` columns. */
export function backSubstituteChain(factor: ArrowFactor, x: Float64Array, width: number): void {
  const { blocks, size, diagonal, link } = factor;
  const step = new Float64Array(size * width);
  for (let b = blocks - 1; b >= 0; b--) {
    const start = b * size * width;
    if (b + 1 < blocks && isLinked(factor, b + 1)) {
      for (let i = 0; i < size; i++) {
        const right = link[(b + 1) * size + i];
        for (let k = 0; k < width; k++) step[i * width + k] = right * x[start + (size + i) * width + k];
      }
      solveLower(diagonal, b * size * size, size, step, 0, width);
      for (let i = 0; i < size * width; i++) x[start + i] -= step[i];
    }
    solveLowerTransposed(diagonal, b * size * size, size, x, start, width);
  }
}

/** Whether block b touches the one before it. */
export function isLinked({ size, link }: BlockArrow, b: number): boolean {
  if (b === 0) return false;
  for (let i = b * size; i < (b + 1) * size; i++) if (link[i] !== 0) return true;
  return false;
}

/** corner −= edgeᵀ·edge, lower triangle. Four rows at a time: one pass over the corner serves them all. */
function subtractSquare(edge: Float64Array, rows: number, border: number, corner: Float64Array): void {
  let i = 0;
  for (; i + 4 <= rows; i += 4) {
    const r0 = i * border;
    const r1 = r0 + border;
    const r2 = r1 + border;
    const r3 = r2 + border;
    for (let j = 0; j < border; j++) {
      const e0 = edge[r0 + j];
      const e1 = edge[r1 + j];
      const e2 = edge[r2 + j];
      const e3 = edge[r3 + j];
      if (e0 === 0 && e1 === 0 && e2 === 0 && e3 === 0) continue;
      const row = j * border;
      for (let k = 0; k <= j; k++) {
        corner[row + k] -= e0 * edge[r0 + k] + e1 * edge[r1 + k] + e2 * edge[r2 + k] + e3 * edge[r3 + k];
      }
    }
  }
  for (; i < rows; i++) {
    for (let j = 0; j < border; j++) {
      const value = edge[i * border + j];
      for (let k = 0; k <= j; k++) corner[j * border + k] -= value * edge[i * border + k];
    }
  }
}
