import type { Random } from "../numeric/probability/random.js";
import { fullStep, type Posterior } from "./believe.js";

/**
 * A draw of u − its likeliest value: z − Jᵀ(J·Jᵀ + I)⁻¹(e + J·z) with z and e standard normal has the covariance
 * I − Jᵀ(J·Jᵀ + I)⁻¹J. Source: Matheron's rule; Chilès & Delfiner 2012, §7.3 (from memory).
 */
export function drawStep({ slopes, rows, factor, u }: Posterior, random: Random): Float64Array {
  const z = u.map(() => random.normal());
  const residual = Float64Array.from({ length: rows }, () => random.normal());
  const shown = fullStep({ residual, slopes, rows, factor }, z);
  return z.map((value, x) => value - shown[x]);
}
