import { checkMatrix } from "./checkMatrix.js";
import type { LinearConstraints } from "./linearConstraints.js";
import { nnls } from "./nnls.js";

/** The constraints contradict each other when no point is nearer than this many times the farthest plane. */
const FARTHEST = 1e8;

/**
 * The shortest x with Gx ≥ h (LDP), or `undefined` if the constraints contradict each other.
 * With r the residual of NNLS for [Gᵀ; hᵀ]·u ≈ (0, …, 0, 1)ᵀ, x = −r/rₙ₊₁; here every gᵢ has length 1 and the
 * largest hᵢ is 1, so ‖r‖ = 1/√(1 + ‖x‖²). Contradictory means ‖r‖ < 1e-8: no x with ‖x‖ < 1e8·max(hᵢ/‖gᵢ‖).
 * Throws `wrong-length`, `not-finite`.
 * Source: Lawson & Hanson (1974) ch. 23, algorithm LDP.
 */
export function leastDistance(constraints: LinearConstraints, columns: number): Float64Array | undefined {
  const { matrix, atLeast } = constraints;
  const count = atLeast.length;
  checkMatrix(matrix, count, columns, "constraints.matrix");
  checkMatrix(atLeast, count, 1, "constraints.atLeast");

  const dual = new Float64Array((columns + 1) * count);
  let farthest = 0;
  for (let i = 0; i < count; i++) {
    let squares = 0;
    for (let j = 0; j < columns; j++) squares += matrix[i * columns + j] ** 2;
    const length = squares > 0 ? Math.sqrt(squares) : 1;
    for (let j = 0; j < columns; j++) dual[j * count + i] = matrix[i * columns + j] / length;
    dual[columns * count + i] = atLeast[i] / length;
    farthest = Math.max(farthest, atLeast[i] / length);
  }
  const x = new Float64Array(columns);
  if (farthest === 0) return x;
  for (let i = 0; i < count; i++) dual[columns * count + i] /= farthest;

  const target = new Float64Array(columns + 1);
  target[columns] = 1;
  const { x: multipliers, residualNorm } = nnls(dual, target, columns + 1, count);
  if (residualNorm * FARTHEST < 1) return undefined;

  let last = 1;
  for (let i = 0; i < count; i++) last -= dual[columns * count + i] * multipliers[i];
  for (let j = 0; j < columns; j++) {
    let entry = 0;
    for (let i = 0; i < count; i++) entry += dual[j * count + i] * multipliers[i];
    x[j] = (entry / last) * farthest;
  }
  return x;
}
