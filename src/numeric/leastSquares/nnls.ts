import { checkMatrix } from "../linear/checkMatrix.js";
import {
  type ColumnTriangle,
  createColumnTriangle,
  enterColumn,
  leaveColumn,
  solveTriangle,
} from "../linear/columnTriangle.js";

export interface NnlsOptions {
  /** Largest number of triangular solves; default 10·columns + 10. */
  readonly maxIterations?: number;
  /** The τ of the optimality test; default 10·max(rows, columns)·ε. */
  readonly tolerance?: number;
}

export interface NnlsResult {
  readonly x: Float64Array;
  /** ‖Ax − b‖ */
  readonly residualNorm: number;
  /** Triangular solves made. */
  readonly iterations: number;
  readonly stopReason: "optimal" | "iteration-limit";
}

/**
 * Minimises ‖Ax − b‖ subject to x ≥ 0.
 * Optimal means: x ≥ 0 exactly, the positive entries are the least-squares solution in their columns, and
 * aⱼᵀ(b − Ax) ≤ τ·‖aⱼ‖·‖b‖ for all others. The test does not depend on the units of a column, and a column that
 * is dependent on the positive ones to within τ passes it, so it never enters.
 * @param a row-major, rows × columns; @param b rows entries
 * Throws `wrong-length`, `not-finite`.
 * Source: Lawson & Hanson (1974) ch. 23, algorithm NNLS, with the QR update of ch. 24.
 */
export function nnls(
  a: Float64Array,
  b: Float64Array,
  rows: number,
  columns: number,
  options: NnlsOptions = {},
): NnlsResult {
  checkMatrix(a, rows, columns, "a");
  checkMatrix(b, rows, 1, "b");
  const { maxIterations = 10 * columns + 10, tolerance = 10 * Math.max(rows, columns) * Number.EPSILON } =
    options;

  const triangle = createColumnTriangle(a, b, rows, columns);
  const norms = new Float64Array(columns);
  for (let j = 0; j < columns; j++) norms[j] = norm(triangle.data, j * rows, (j + 1) * rows);
  const leastGradient = tolerance * norm(b, 0, rows);

  const x = new Float64Array(columns);
  const solution = new Float64Array(columns);
  let iterations = 0;
  let stopReason: NnlsResult["stopReason"] = "iteration-limit";

  while (iterations < maxIterations) {
    const entering = steepestColumn(triangle, norms, leastGradient);
    if (entering < 0) {
      stopReason = "optimal";
      break;
    }
    enterColumn(triangle, entering);
    do {
      solveTriangle(triangle, solution);
      iterations++;
    } while (!moveTowards(triangle, solution, x) && iterations < maxIterations);
  }
  return { x, residualNorm: norm(triangle.target, triangle.count, rows), iterations, stopReason };
}

/** The column not chosen that, at unit length, lowers the residual fastest; −1 if none exceeds `least`. */
function steepestColumn(
  { rows, columns, data, target, isChosen, count }: ColumnTriangle,
  norms: Float64Array,
  least: number,
): number {
  let best = -1;
  let steepest = least;
  for (let j = 0; j < columns; j++) {
    if (isChosen[j] === 1 || norms[j] === 0) continue;
    let gradient = 0;
    for (let i = count; i < rows; i++) gradient += data[j * rows + i] * target[i];
    gradient /= norms[j];
    if (gradient > steepest) {
      steepest = gradient;
      best = j;
    }
  }
  return best;
}

/**
 * Moves x towards the solution in the chosen columns, up to the first entry that reaches zero; the columns at
 * zero leave the choice. Returns whether the solution itself was reached.
 */
function moveTowards(triangle: ColumnTriangle, solution: Float64Array, x: Float64Array): boolean {
  const { chosen, count } = triangle;
  let fraction = 1;
  let blocking = -1;
  for (let k = 0; k < count; k++) {
    if (solution[k] > 0) continue;
    const here = x[chosen[k]];
    const reach = here > 0 ? here / (here - solution[k]) : 0;
    if (blocking < 0 || reach < fraction) {
      fraction = reach;
      blocking = k;
    }
  }
  for (let k = 0; k < count; k++) {
    const j = chosen[k];
    x[j] = blocking < 0 ? solution[k] : x[j] + fraction * (solution[k] - x[j]);
  }
  if (blocking < 0) return true;
  x[chosen[blocking]] = 0;
  for (let k = count - 1; k >= 0; k--) {
    if (x[chosen[k]] > 0) continue;
    x[chosen[k]] = 0;
    leaveColumn(triangle, k);
  }
  return false;
}

function norm(values: Float64Array, start: number, end: number): number {
  let squares = 0;
  for (let i = start; i < end; i++) squares += values[i] * values[i];
  return Math.sqrt(squares);
}
