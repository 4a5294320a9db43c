import { solveLower } from "../numeric/triangularSolve.js";
import type { Posterior } from "./believe.js";

/** L⁻¹·J·Aᵀ, row by row of what was seen: what the cards take off the covariance A·Aᵀ; A by unknown, `count` numbers each. */
export function shownBy(
  { slopes, rows, factor, u }: Posterior,
  by: Float64Array,
  count: number,
): Float64Array {
  const shown = new Float64Array(rows * count);
  for (let x = 0; x < u.length; x++) {
    for (let r = 0; r < rows; r++) {
      const slope = slopes[x * rows + r];
      if (slope === 0) continue;
      for (let i = 0; i < count; i++) shown[r * count + i] += slope * by[x * count + i];
    }
  }
  solveLower(factor, 0, rows, shown, 0, count);
  return shown;
}
