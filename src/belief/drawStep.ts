import { solveLower, solveLowerTransposed } from "../numeric/linear/triangularSolve.js";
import type { Random } from "../numeric/probability/random.js";
import type { Posterior } from "./believe.js";

/**
 * A draw of u − its likeliest value: z − Jᵀ(J·Jᵀ + I)⁻¹(J·z + e) with z and e standard normal has the covariance
 * I − Jᵀ(J·Jᵀ + I)⁻¹J. Source: Matheron's rule; Chilès & Delfiner 2012, §7.3.
 */
export function drawStep({ slopes, rows, factor, u }: Posterior, random: Random): Float64Array {
  const z = u.map(() => random.normal());
  const right = Float64Array.from({ length: rows }, () => random.normal());
  for (let x = 0; x < z.length; x++) {
    for (let r = 0; r < rows; r++) right[r] += slopes[x * rows + r] * z[x];
  }
  solveLower(factor, rows, right, 0, 1);
  solveLowerTransposed(factor, rows, right, 0, 1);
  return z.map((value, x) => {
    let sum = value;
    for (let r = 0; r < rows; r++) sum -= slopes[x * rows + r] * right[r];
    return sum;
  });
}
