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
      solveLower(diagonal.subarray(at - size * size), size, inverse, 0, size);
      solveLowerTransposed(diagonal.subarray(at - size * size), size, inverse, 0, size);
      before.set(edge.subarray(start - size * border, start));
      solveLowerTransposed(diagonal.subarray(at - size * size), size, before, 0, border);
      for (let i = 0; i < size; i++) {
        const left = link[b * size + i];
        for (let j = 0; j <= i; j++) {
          diagonal[at + i * size + j] -= left * inverse[i * size + j] * link[b * size + j];
        }
        for (let k = 0; k < border; k++) edge[start + i * border + k] -= left * before[i * border + k];
      }
    }
    if (!choleskyInPlace(diagonal, at, size)) return undefined;
    solveLower(diagonal.subarray(at), size, edge, start, border);
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
      solveLowerTransposed(diagonal.subarray((b - 1) * size * size), size, step, 0, 1);
      for (let i = 0; i < size; i++) x[b * size + i] -= link[b * size + i] * step[i];
    }
    solveLower(diagonal.subarray(b * size * size), size, x, b * size, 1);
  }
  for (let i = 0; i < rows; i++) {
    const value = x[i];
    if (value === 0) continue;
    for (let k = 0; k < border; k++) x[rows + k] -= edge[i * border + k] * value;
  }
  solveLower(corner, border, x, rows, 1);
  solveLowerTransposed(corner, border, x, rows, 1);
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
      solveLower(diagonal.subarray(b * size * size), size, step, 0, width);
      for (let i = 0; i < size * width; i++) x[start + i] -= step[i];
    }
    solveLowerTransposed(diagonal.subarray(b * size * size), size, x, start, width);
  }
}

/** Whether block b touches the one before it. */
export function isLinked({ size, link }: BlockArrow, b: number): boolean {
  if (b === 0) return false;
  for (let i = b * size; i < (b + 1) * size; i++) if (link[i] !== 0) return true;
  return false;
}

/** Rows of the edge that are turned into columns at a time, so that they stay in the cache. */
const SLAB = 256;

/**
 * corner −= edgeᵀ·edge, lower triangle: slab by slab turned into columns (padded to whole tiles with zeros), and in
 * tiles of four by two, so that every number read serves several products.
 */
function subtractSquare(edge: Float64Array, rows: number, border: number, corner: Float64Array): void {
  const padded = 4 * Math.ceil(border / 4);
  const columns = new Float64Array(padded * SLAB);
  const square = new Float64Array(padded * padded);
  for (let from = 0; from < rows; from += SLAB) {
    const count = Math.min(SLAB, rows - from);
    for (let i = 0; i < count; i++) {
      for (let j = 0; j < border; j++) columns[j * count + i] = edge[(from + i) * border + j];
    }
    columns.fill(0, border * count, padded * count);
    for (let j = 0; j < padded; j += 4) {
      for (let k = 0; k < j + 4; k += 2) addTile({ columns, count }, { square, padded }, j, k);
    }
  }
  for (let j = 0; j < border; j++) {
    for (let k = 0; k <= j; k++) corner[j * border + k] -= square[j * padded + k];
  }
}

/** Products of columns j…j+3 with columns k and k+1. */
function addTile(
  { columns, count }: { readonly columns: Float64Array; readonly count: number },
  { square, padded }: { readonly square: Float64Array; readonly padded: number },
  j: number,
  k: number,
): void {
  const [p0, p1, p2, p3] = [j * count, (j + 1) * count, (j + 2) * count, (j + 3) * count];
  const [q0, q1] = [k * count, (k + 1) * count];
  let a0 = 0;
  let a1 = 0;
  let b0 = 0;
  let b1 = 0;
  let c0 = 0;
  let c1 = 0;
  let d0 = 0;
  let d1 = 0;
  for (let i = 0; i < count; i++) {
    const u = columns[q0 + i];
    const v = columns[q1 + i];
    a0 += columns[p0 + i] * u;
    a1 += columns[p0 + i] * v;
    b0 += columns[p1 + i] * u;
    b1 += columns[p1 + i] * v;
    c0 += columns[p2 + i] * u;
    c1 += columns[p2 + i] * v;
    d0 += columns[p3 + i] * u;
    d1 += columns[p3 + i] * v;
  }
  const place = j * padded + k;
  square[place] += a0;
  square[place + 1] += a1;
  square[place + padded] += b0;
  square[place + padded + 1] += b1;
  square[place + 2 * padded] += c0;
  square[place + 2 * padded + 1] += c1;
  square[place + 3 * padded] += d0;
  square[place + 3 * padded + 1] += d1;
}
