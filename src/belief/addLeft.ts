import { addProduct } from "../numeric/linear/addProduct.js";
import { eliminate } from "../numeric/linear/borderedBlocks.js";
import type { Posterior } from "./believe.js";

/**
 * into += A·C·Aᵀ, C = I − Jᵀ(J·Jᵀ + I)⁻¹J the covariance that is left of the unknowns; A by unknown, as many numbers each as
 * `into` is wide, or a multiple of that: then the sum over the parts. Unknowns that one geometry shows count with what is left
 * of them when those of the border are known, and those with what is left of them: A·Aᵀ of the former − YᵀY + VᵀV.
 */
export function addLeft({ u, slopes, rows, factor }: Posterior, by: Float64Array, into: Float64Array): void {
  const count = by.length / u.length;
  const width = Math.sqrt(into.length);
  const within = by.slice();
  const across = new Float64Array(factor.border * count);
  factor.across.forEach((x, i) => {
    const from = x * count;
    across.set(by.subarray(from, from + count), i * count);
    within.fill(0, from, from + count);
  });
  const shown = new Float64Array(rows * count);
  addProduct({ values: slopes, width: rows }, { values: within, width: count }, shown);
  eliminate(factor, shown, across, count);
  const addSquares = (values: Float64Array, sign: number) =>
    addProduct({ values, width }, { values, width }, into, sign);
  addSquares(within, 1);
  addSquares(shown, -1);
  addSquares(across, 1);
}
