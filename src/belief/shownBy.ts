import { addProduct } from "../numeric/linear/addProduct.js";
import { whiten } from "../numeric/linear/borderedBlocks.js";
import type { Posterior } from "./believe.js";

/** W·J·Aᵀ with WᵀW = (J·Jᵀ + I)⁻¹, row by row of what was seen: what the cards take off the covariance A·Aᵀ; A by unknown, `count` numbers each. */
export function shownBy({ slopes, rows, factor }: Posterior, by: Float64Array, count: number): Float64Array {
  const shown = new Float64Array(rows * count);
  addProduct({ values: slopes, width: rows }, { values: by, width: count }, shown);
  whiten(factor, shown, count);
  return shown;
}
