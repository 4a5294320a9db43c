import { checkMatrix } from "../linear/checkMatrix.js";
import { choleskyInPlace, solveLower, solveLowerTransposed } from "../linear/triangularSolve.js";
import { type NnlsResult, nnls } from "./nnls.js";

/** Rounds of exchange before `nnls` takes over; a handful is usual. */
const MOST_ROUNDS = 40;
/** Entries this far below zero, against the largest, count as zero: rounding of the normal equations. */
const NEGLIGIBLE = 1e-12;

/**
 * The same as `nnls`, for many rows of which each has few entries: the normal equations cost next to nothing there.
 * Entries are exchanged in blocks between those held at zero and the free ones until the Kuhn–Tucker conditions hold,
 * and the last solution is refined with the residual of A itself, which gives back the digits that squaring A took.
 * Where AᵀA is not safely regular, or the exchange does not end, `nnls` answers.
 * @param a row-major, rows × columns; @param b rows entries
 * Throws `wrong-length`, `not-finite`. Source: Kim & Park (2011); refinement: Björck (1987).
 */
export function nnlsOfSparseRows(
  a: Float64Array,
  b: Float64Array,
  rows: number,
  columns: number,
): NnlsResult {
  checkMatrix(a, rows, columns, "a");
  checkMatrix(b, rows, 1, "b");
  const { gram, right } = normalEquations(a, b, rows, columns);
  let free = Array.from(right.keys());
  for (let round = 1; round <= MOST_ROUNDS; round++) {
    const x = solveFree(gram, right, columns, free);
    if (x === undefined) break;
    const wrong = wrongSide(gram, right, columns, free, x);
    if (wrong.length === 0) return refined({ a, b, rows, columns }, gram, free, x, round);
    // In late rounds one at a time, the last first, which cannot cycle (Murty).
    const moved = round <= MOST_ROUNDS / 4 ? wrong : wrong.slice(-1);
    free = Array.from(right.keys()).filter((j) => free.includes(j) !== moved.includes(j));
  }
  return nnls(a, b, rows, columns);
}

function normalEquations(a: Float64Array, b: Float64Array, rows: number, columns: number) {
  const gram = new Float64Array(columns * columns);
  const right = new Float64Array(columns);
  const places = new Int32Array(columns);
  for (let i = 0; i < rows; i++) {
    const row = i * columns;
    let count = 0;
    for (let j = 0; j < columns; j++) if (a[row + j] !== 0) places[count++] = j;
    for (let p = 0; p < count; p++) {
      const value = a[row + places[p]];
      right[places[p]] += value * b[i];
      for (let q = 0; q < count; q++) gram[places[p] * columns + places[q]] += value * a[row + places[q]];
    }
  }
  return { gram, right };
}

/** The least-squares solution in the free columns, zero elsewhere; undefined where AᵀA is not safely regular. */
function solveFree(
  gram: Float64Array,
  right: Float64Array,
  columns: number,
  free: readonly number[],
): Float64Array | undefined {
  const size = free.length;
  const lower = new Float64Array(size * size);
  const part = new Float64Array(size);
  free.forEach((j, p) => {
    part[p] = right[j];
    for (let q = 0; q <= p; q++) lower[p * size + q] = gram[j * columns + free[q]];
  });
  const diagonal = free.map((_, p) => lower[p * size + p]);
  if (!choleskyInPlace(lower, 0, size)) return undefined;
  // A pivot far below its column's own length: the digits that are left would not carry an answer.
  if (diagonal.some((square, p) => lower[p * size + p] ** 2 < LEAST_PIVOT * square)) return undefined;
  solveLower(lower, size, part, 0, 1);
  solveLowerTransposed(lower, size, part, 0, 1);
  const x = new Float64Array(columns);
  free.forEach((j, p) => {
    x[j] = part[p];
  });
  return x;
}

const LEAST_PIVOT = 1e-9;

/** Free entries below zero, and held ones along which the residual would still fall. */
function wrongSide(
  gram: Float64Array,
  right: Float64Array,
  columns: number,
  free: readonly number[],
  x: Float64Array,
): readonly number[] {
  const isFree = new Uint8Array(columns);
  for (const j of free) isFree[j] = 1;
  const largest = x.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const wrong: number[] = [];
  for (let j = 0; j < columns; j++) {
    if (isFree[j] === 1) {
      if (x[j] < -NEGLIGIBLE * largest) wrong.push(j);
      continue;
    }
    let slope = right[j];
    for (let i = 0; i < columns; i++) slope -= gram[j * columns + i] * x[i];
    if (slope > NEGLIGIBLE * Math.abs(right[j])) wrong.push(j);
  }
  return wrong;
}

function refined(
  problem: {
    readonly a: Float64Array;
    readonly b: Float64Array;
    readonly rows: number;
    readonly columns: number;
  },
  gram: Float64Array,
  free: readonly number[],
  x: Float64Array,
  iterations: number,
): NnlsResult {
  const { columns } = problem;
  const correction = solveFree(gram, gradient(problem, x).byColumn, columns, free);
  if (correction) for (let j = 0; j < columns; j++) x[j] += correction[j];
  for (let j = 0; j < columns; j++) x[j] = Math.max(0, x[j]);
  return { x, residualNorm: gradient(problem, x).residualNorm, iterations, stopReason: "optimal" };
}

/** Aᵀ(b − Ax) and ‖b − Ax‖. */
function gradient(
  {
    a,
    b,
    rows,
    columns,
  }: { readonly a: Float64Array; readonly b: Float64Array; readonly rows: number; readonly columns: number },
  x: Float64Array,
) {
  const byColumn = new Float64Array(columns);
  let squares = 0;
  for (let i = 0; i < rows; i++) {
    let rest = b[i];
    for (let j = 0; j < columns; j++) rest -= a[i * columns + j] * x[j];
    for (let j = 0; j < columns; j++) byColumn[j] += a[i * columns + j] * rest;
    squares += rest * rest;
  }
  return { byColumn, residualNorm: Math.sqrt(squares) };
}
