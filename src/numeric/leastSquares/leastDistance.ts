import { checkMatrix } from "../linear/checkMatrix.js";
import type { LinearConstraints } from "./linearConstraints.js";
import { nnls } from "./nnls.js";

/** The 1e-13 and the 1e6 of the doc comment below. */
const FEASIBILITY = 1e-13;
const FARTHEST = 1e6;
/** What the rounding of one round leaves of a constraint is repaired by the next. */
const ROUNDS = 10;

/**
 * The shortest x with Gx ≥ h (LDP), or `undefined` if the constraints contradict each other.
 * With r the residual of NNLS for [Gᵀ; hᵀ]·u ≈ (0, …, 0, 1)ᵀ, x = −r/rₙ₊₁; here every gᵢ has length 1 and the
 * largest hᵢ is 1, so ‖r‖ = 1/√(1 + ‖x‖²). Contradictory means ‖r‖ < 1e-6: no x with ‖x‖ < 1e6·max(hᵢ/‖gᵢ‖).
 * Constraints hold to hᵢ − gᵢ·x ≤ 1e-13·(|hᵢ| + ‖gᵢ‖·‖x‖), or as nearly as ten rounds bring them.
 * Throws `wrong-length`, `not-finite`.
 * Source: Lawson & Hanson (1974) ch. 23, algorithm LDP.
 */
export function leastDistance(constraints: LinearConstraints, columns: number): Float64Array | undefined {
  const { matrix, atLeast } = constraints;
  const count = atLeast.length;
  checkMatrix(matrix, count, columns, "constraints.matrix");
  checkMatrix(atLeast, count, 1, "constraints.atLeast");

  const normals = matrix.slice();
  const distances = atLeast.slice();
  for (let i = 0; i < count; i++) {
    const normal = normals.subarray(i * columns, (i + 1) * columns);
    const length = norm(normal);
    if (length === 0) continue;
    for (let j = 0; j < columns; j++) normal[j] /= length;
    distances[i] /= length;
  }

  const x = new Float64Array(columns);
  for (let round = 0; round < ROUNDS; round++) {
    const missing = distances.slice();
    const reach = norm(x);
    let farthest = 0;
    for (let i = 0; i < count; i++) {
      for (let j = 0; j < columns; j++) missing[i] -= normals[i * columns + j] * x[j];
      const rounding = FEASIBILITY * (Math.abs(distances[i]) + reach);
      if (missing[i] > rounding) farthest = Math.max(farthest, missing[i]);
    }
    if (farthest === 0) break;
    const step = shortest(
      normals,
      missing.map((distance) => distance / farthest),
      columns,
    );
    if (step === undefined) return round === 0 ? undefined : x;
    for (let j = 0; j < columns; j++) x[j] += farthest * step[j];
  }
  return x;
}

/** The least-distance problem for normals of length 1 and distances of at most 1. */
function shortest(normals: Float64Array, distances: Float64Array, columns: number): Float64Array | undefined {
  const count = distances.length;
  const dual = new Float64Array((columns + 1) * count);
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < columns; j++) dual[j * count + i] = normals[i * columns + j];
    dual[columns * count + i] = distances[i];
  }
  const target = new Float64Array(columns + 1);
  target[columns] = 1;
  const { x: multipliers, residualNorm } = nnls(dual, target, columns + 1, count);
  if (residualNorm * FARTHEST < 1) return undefined;

  // rₙ₊₁ is ‖r‖², which the residual gives without cancellation.
  const x = new Float64Array(columns);
  for (let j = 0; j < columns; j++) {
    for (let i = 0; i < count; i++) x[j] += dual[j * count + i] * multipliers[i];
    x[j] /= residualNorm ** 2;
  }
  return x;
}

function norm(values: Float64Array): number {
  let squares = 0;
  for (let j = 0; j < values.length; j++) squares += values[j] * values[j];
  return Math.sqrt(squares);
}
