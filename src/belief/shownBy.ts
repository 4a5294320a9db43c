import { addProduct } from "../numeric/linear/addProduct.js";
import { solveLower } from "../numeric/linear/triangularSolve.js";
import type { Posterior } from "./believe.js";

/** L⁻¹·J·Aᵀ, row by row of what was seen: what the cards take off the covariance A·Aᵀ; A by unknown, `count` numbers each. */
export function shownBy({ slopes, rows, factor }: Posterior, by: Float64Array, count: number): Float64Array {
  const shown = new Float64Array(rows * count);
  addProduct({ values: slopes, width: rows }, { values: by, width: count }, shown);
  solveLower(factor, rows, shown, 0, count);
  return shown;
}
