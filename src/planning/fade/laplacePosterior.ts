import { choleskyLower, choleskySolve } from "../../numeric/linear/denseAlgebra.js";

/** A posterior taken for normal: covariance (JᵀJ)⁻¹ and its Cholesky factor, row-major, and ½ ln det JᵀJ. */
export interface LaplacePosterior {
  readonly covariance: Float64Array;
  readonly lower: Float64Array;
  readonly halfLogDeterminant: number;
}

/**
 * From the slopes J (row-major, `count` columns) of residuals of unit variance, priors among them, at the answer
 * (Gelman et al. 2013, ch. 13). Throws `out-of-range` where they do not fix every unknown.
 */
export function laplacePosterior(jacobian: Float64Array, count: number): LaplacePosterior {
  const identity = new Float64Array(count * count);
  for (let n = 0; n < count; n++) identity[n * count + n] = 1;
  const covariance = choleskySolve(squareOf(jacobian, count), identity, count, count);
  const lower = choleskyLower(covariance, count);
  let halfLogDeterminant = 0;
  for (let n = 0; n < count; n++) halfLogDeterminant -= Math.log(lower[n * count + n]);
  return { covariance, lower, halfLogDeterminant };
}

/** JᵀJ, row-major. */
function squareOf(jacobian: Float64Array, count: number): Float64Array {
  const square = new Float64Array(count * count);
  for (let from = 0; from < jacobian.length; from += count) {
    for (let i = 0; i < count; i++) {
      const value = jacobian[from + i];
      if (value === 0) continue;
      for (let j = 0; j < count; j++) square[i * count + j] += value * jacobian[from + j];
    }
  }
  return square;
}
