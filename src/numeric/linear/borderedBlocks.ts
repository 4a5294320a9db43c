import { addProduct } from "./addProduct.js";
import { choleskyInPlace, solveLower, solveLowerTransposed } from "./triangularSolve.js";

/**
 * I + J·Jᵀ where most columns of J touch the rows of one block alone: D + B·Bᵀ, D block by block, B the columns that touch
 * several. D = L·Lᵀ, Z = L⁻¹·B, I + ZᵀZ = C·Cᵀ. Where B is empty, L is the Cholesky factor.
 */
export interface BorderedBlocks {
  readonly rows: number;
  /** Those of the columns of J. */
  readonly spans: Int32Array;
  /** The lower triangles L, block after block. */
  readonly blocks: readonly Float64Array[];
  /** Which columns of J are B, and how many. */
  readonly across: readonly number[];
  readonly border: number;
  /** Z, row-major, and its transpose. */
  readonly edge: Float64Array;
  readonly turned: Float64Array;
  /** C, and C + I. */
  readonly corner: Float64Array;
  readonly raised: Float64Array;
  /** Steps of work (see `createWork`) that the factor took, and that one column takes to be whitened. */
  readonly steps: number;
  readonly stepsToWhiten: number;
}

/** Columns one after the other, column x of J at `[x·rows + r]`; by column the first row that may not be 0, and the row after the last. */
export interface Columns {
  readonly values: Float64Array;
  readonly spans: Int32Array;
}

/**
 * Factor of I + J·Jᵀ, `sizes` the rows of each block, one after the other. Blocks that too much couples are taken as one:
 * with half as many columns in the border as there are rows nothing is won.
 */
export function factoriseBlocks(columns: Columns, sizes: readonly number[]): BorderedBlocks {
  const { values, spans } = columns;
  const ends = endsOf(sizes);
  const rows = ends[ends.length - 1];
  const within = sizes.map((): number[] => []);
  const across: number[] = [];
  for (let x = 0; x < spans.length / 2; x++) {
    const block = Math.max(
      0,
      ends.findIndex((end) => spans[2 * x] < end),
    );
    (spans[2 * x + 1] <= ends[block] ? within[block] : across).push(x);
  }
  const border = across.length;
  if (sizes.length > 1 && 2 * border > rows) return factoriseBlocks(columns, [rows]);
  const blocks = within.map((some, b) => {
    const size = sizes[b];
    const own = gather(values, rows, some, { from: ends[b] - size, size });
    const block = new Float64Array(size * size);
    addProduct({ values: own, width: size }, { values: own, width: size }, block);
    for (let i = 0; i < size; i++) block[i * size + i] += 1;
    choleskyInPlace(block, 0, size);
    return block;
  });
  const edge = turn(gather(values, rows, across, { from: 0, size: rows }), rows);
  solveBlocks(solveLower, blocks, edge, border);
  const corner = new Float64Array(border * border);
  addProduct({ values: edge, width: border }, { values: edge, width: border }, corner);
  for (let i = 0; i < border; i++) corner[i * border + i] += 1;
  choleskyInPlace(corner, 0, border);
  const raised = corner.slice();
  for (let i = 0; i < border; i++) raised[i * border + i] += 1;
  return {
    rows,
    spans,
    blocks,
    across,
    border,
    edge,
    turned: turn(edge, border),
    corner,
    raised,
    steps: sizes.reduce((sum, size) => sum + size ** 3 / 6, (border * border * (rows + border / 3)) / 2),
    stepsToWhiten: sizes.reduce((sum, size) => sum + size * size, 2 * border * (2 * rows + border)) / 2,
  };
}

/**
 * Replaces X, rows × `width` and row-major, by W·X with WᵀW = (I + J·Jᵀ)⁻¹: W = (I − Z·(Cᵀ + I)⁻¹·C⁻¹·Zᵀ)·L⁻¹, which is
 * L⁻¹ without a border. Source: Andrews 1968 (from memory); multiplied out in test/numeric.
 */
export function whiten(factor: BorderedBlocks, x: Float64Array, width: number): void {
  const { blocks, border, corner, raised } = factor;
  solveBlocks(solveLower, blocks, x, width);
  if (border === 0) return;
  const inBorder = takeIn(factor, x, width);
  solveLower(corner, border, inBorder, 0, width);
  solveLowerTransposed(raised, border, inBorder, 0, width);
  takeOff(factor, inBorder, x, width);
}

/** Replaces X by Wᵀ·X, likewise. */
export function whitenTransposed(factor: BorderedBlocks, x: Float64Array, width: number): void {
  const { blocks, border, corner, raised } = factor;
  if (border > 0) {
    const inBorder = takeIn(factor, x, width);
    solveLower(raised, border, inBorder, 0, width);
    solveLowerTransposed(corner, border, inBorder, 0, width);
    takeOff(factor, inBorder, x, width);
  }
  solveBlocks(solveLowerTransposed, blocks, x, width);
}

/**
 * For X, rows × `width`, and Y, border × `width`, both row-major: X ← L⁻¹·X, then Y ← C⁻¹·(Y − Zᵀ·X), a step of elimination by
 * blocks.
 */
export function eliminate(
  { blocks, border, edge, corner }: BorderedBlocks,
  x: Float64Array,
  y: Float64Array,
  width: number,
): void {
  solveBlocks(solveLower, blocks, x, width);
  addProduct({ values: edge, width: border }, { values: x, width }, y, -1);
  solveLower(corner, border, y, 0, width);
}

/** ln det(I + J·Jᵀ). */
export function logDeterminant({ blocks, corner }: BorderedBlocks): number {
  return [...blocks, corner].reduce((sum, lower) => sum + ofTriangle(lower), 0);
}

function ofTriangle(lower: Float64Array): number {
  const size = Math.sqrt(lower.length);
  let sum = 0;
  for (let i = 0; i < size; i++) sum += 2 * Math.log(lower[i * size + i]);
  return sum;
}

/** Zᵀ·X. */
function takeIn({ edge, border }: BorderedBlocks, x: Float64Array, width: number): Float64Array {
  const inBorder = new Float64Array(border * width);
  addProduct({ values: edge, width: border }, { values: x, width }, inBorder);
  return inBorder;
}

/** X ← X − Z·Y. */
function takeOff({ turned, rows }: BorderedBlocks, y: Float64Array, x: Float64Array, width: number): void {
  addProduct({ values: turned, width: rows }, { values: y, width }, x, -1);
}

function solveBlocks(
  solve: typeof solveLower,
  blocks: readonly Float64Array[],
  x: Float64Array,
  width: number,
): void {
  let row = 0;
  for (const lower of blocks) {
    const size = Math.sqrt(lower.length);
    solve(lower, size, x, row * width, width);
    row += size;
  }
}

const endsOf = (sizes: readonly number[]): readonly number[] => {
  let end = 0;
  return sizes.map((size) => {
    end += size;
    return end;
  });
};

/** Some columns, of each the rows from `from` on. */
function gather(
  columns: Float64Array,
  rows: number,
  some: readonly number[],
  { from, size }: { readonly from: number; readonly size: number },
): Float64Array {
  const own = new Float64Array(some.length * size);
  some.forEach((x, i) => {
    own.set(columns.subarray(x * rows + from, x * rows + from + size), i * size);
  });
  return own;
}

/** The transpose of a matrix of lines of `width`. */
function turn(values: Float64Array, width: number): Float64Array {
  const lines = width > 0 ? values.length / width : 0;
  const turned = new Float64Array(values.length);
  for (let i = 0; i < lines; i++) {
    for (let k = 0; k < width; k++) turned[k * lines + i] = values[i * width + k];
  }
  return turned;
}
