import { checkMatrix } from "../linear/checkMatrix.js";
import { solveUpper } from "../linear/householder.js";
import { type RegularTriangle, regularTriangle } from "../linear/regularTriangle.js";
import { equalityLeastSquares, type LinearSystem } from "./equalityLeastSquares.js";
import { leastDistance } from "./leastDistance.js";
import type { LinearConstraints } from "./linearConstraints.js";

export interface ConstrainedLeastSquaresOptions {
  /** A point that satisfies the constraints; default the shortest one. */
  readonly start?: ArrayLike<number>;
  /** Constraints to begin with, which are equations at `start`. Default none. */
  readonly active?: readonly number[];
  /** Largest number of equality problems solved; default 10·(columns + constraints). */
  readonly maxIterations?: number;
}

export interface ConstrainedLeastSquaresResult {
  /** The minimiser; a feasible point at the iteration limit; zeros when there is no feasible point. */
  readonly x: Float64Array;
  readonly status: "optimal" | "infeasible" | "iteration-limit";
  /** The constraints that hold x back: equations at x, with multipliers ≥ 0. */
  readonly active: readonly number[];
  /** Equality problems solved. */
  readonly iterations: number;
}

/** The 1e-12 of the doc comment below. */
const FEASIBILITY = 1e-12;

/**
 * Minimises ‖Ex − f‖ subject to Gx ≥ h (LSI) by a primal active set: solve with the active constraints as equations;
 * go there, or only to the first other constraint in the way, which joins them; once there, let go the one with the
 * most negative multiplier. When none is negative, x is optimal.
 * Constraints hold to hᵢ − gᵢ·x ≤ 1e-12·(|hᵢ| + ‖gᵢ‖·(‖x‖ + ‖f‖)), lengths taken in units of x in which the columns
 * of E have length 1. For E of deficient rank see `regularTriangle`.
 * @param matrix E, row-major, rows × columns; @param rightHandSide f
 * Throws `wrong-length`, `not-finite`.
 * Source: Stoer (1971); Gill, Murray & Wright (1981) §5.2; for the start, Lawson & Hanson (1974) ch. 23.
 */
export function constrainedLeastSquares(
  { matrix, rightHandSide, rows, columns }: LinearSystem,
  constraints: LinearConstraints,
  options: ConstrainedLeastSquaresOptions = {},
): ConstrainedLeastSquaresResult {
  checkMatrix(matrix, rows, columns, "matrix");
  checkMatrix(rightHandSide, rows, 1, "rightHandSide");
  checkMatrix(constraints.matrix, constraints.atLeast.length, columns, "constraints.matrix");
  checkMatrix(constraints.atLeast, constraints.atLeast.length, 1, "constraints.atLeast");
  if (options.start !== undefined) checkMatrix(options.start, columns, 1, "start");
  const { maxIterations = 10 * (columns + constraints.atLeast.length) } = options;

  const x = new Float64Array(columns);
  const start = options.start ?? leastDistance(constraints, columns);
  if (start === undefined) return { x, status: "infeasible", active: [], iterations: 0 };

  const triangle = regularTriangle(matrix, rightHandSide, rows, columns);
  const { scale } = triangle;
  const faces = scaledFaces(constraints, scale);
  const active = options.active?.slice() ?? [];
  const z = new Float64Array(columns);
  for (let j = 0; j < columns; j++) z[j] = start[j] / scale[j];

  const size = length(triangle.target);
  // Constraints that depend on the active ones, and hold to rounding wherever those do.
  let dependent: number[] = [];
  // Active constraints that were in the way again as soon as they were let go: rounding has made their multipliers
  // negative.
  let settled: number[] = [];
  let released = -1;

  let status: ConstrainedLeastSquaresResult["status"] = "iteration-limit";
  let iterations = 0;
  while (iterations < maxIterations) {
    const goal = solveOn(faces, active, settled, triangle);
    iterations++;
    if (goal === undefined) {
      dependent.push(...active.splice(-1));
      continue;
    }
    const blocking = moveTowards(goal.z, z, faces, [...active, ...dependent], size);
    if (released >= 0) settled = blocking === released ? [...settled, released] : [];
    released = -1;
    if (blocking >= 0) {
      active.push(blocking);
    } else if (goal.leaving >= 0) {
      [released] = active.splice(goal.leaving, 1);
      dependent = [];
    } else {
      status = "optimal";
      break;
    }
  }
  for (let j = 0; j < columns; j++) x[j] = z[j] * scale[j];
  return { x, status, active, iterations };
}

/** The constraints on z = x/scale, with the length of every row. */
interface Faces extends LinearConstraints {
  readonly lengths: Float64Array;
}

function scaledFaces({ matrix, atLeast }: LinearConstraints, scale: Float64Array): Faces {
  const count = atLeast.length;
  const columns = scale.length;
  const scaled = new Float64Array(matrix.length);
  const lengths = new Float64Array(count);
  for (let i = 0, k = 0; i < count; i++) {
    let squares = 0;
    for (let j = 0; j < columns; j++, k++) {
      scaled[k] = matrix[k] * scale[j];
      squares += scaled[k] * scaled[k];
    }
    lengths[i] = Math.sqrt(squares);
  }
  return { matrix: scaled, atLeast, lengths };
}

/**
 * The minimiser with the active constraints as equations, and the place among them of the one to let go (−1: none);
 * `undefined` if the last of them depends on the others.
 */
function solveOn(
  { matrix, atLeast, lengths }: Faces,
  active: readonly number[],
  settled: readonly number[],
  { factor, diagonal, target }: RegularTriangle,
): { z: Float64Array; leaving: number } | undefined {
  const columns = diagonal.length;
  if (active.length === 0) {
    const z = target.slice();
    solveUpper(factor, columns, diagonal, z);
    return { z, leaving: -1 };
  }

  const equalities = new Float64Array(active.length * columns);
  const values = new Float64Array(active.length);
  for (let i = 0; i < active.length; i++) {
    const row = active[i] * columns;
    equalities.set(matrix.subarray(row, row + columns), i * columns);
    values[i] = atLeast[active[i]];
  }
  const solution = equalityLeastSquares(
    { matrix: factor.slice(), rightHandSide: target, rows: columns, columns },
    equalities,
    values,
  );
  if (solution === undefined) return undefined;
  const { x: z, multipliers } = solution;

  // R has columns of unit length, so the rounding of a multiplier is measured by the terms of Rz − target.
  let steepest = -10 * columns * Number.EPSILON * (length(target) + length(z));
  let leaving = -1;
  for (let i = 0; i < active.length; i++) {
    const pull = multipliers[i] * lengths[active[i]];
    if (pull < steepest && !settled.includes(active[i])) {
      steepest = pull;
      leaving = i;
    }
  }
  return { z, leaving };
}

/** Moves z to the goal, or as far as the first constraint in the way; returns that constraint, or −1. */
function moveTowards(
  goal: Float64Array,
  z: Float64Array,
  { matrix, atLeast, lengths }: Faces,
  others: readonly number[],
  size: number,
): number {
  const columns = z.length;
  const goalSize = size + length(goal);
  let blocking = -1;
  let fraction = 1;
  for (let i = 0; i < atLeast.length; i++) {
    let here = -atLeast[i];
    let there = -atLeast[i];
    for (let j = 0, k = i * columns; j < columns; j++, k++) {
      here += matrix[k] * z[j];
      there += matrix[k] * goal[j];
    }
    const allowed = FEASIBILITY * (Math.abs(atLeast[i]) + lengths[i] * goalSize);
    if (there >= -allowed || there - here >= -allowed || others.includes(i)) continue;
    const reach = here > 0 ? here / (here - there) : 0;
    if (blocking < 0 || reach < fraction) {
      fraction = reach;
      blocking = i;
    }
  }
  for (let j = 0; j < columns; j++) z[j] = blocking < 0 ? goal[j] : z[j] + fraction * (goal[j] - z[j]);
  return blocking;
}

function length(values: Float64Array): number {
  let squares = 0;
  for (let j = 0; j < values.length; j++) squares += values[j] * values[j];
  return Math.sqrt(squares);
}
