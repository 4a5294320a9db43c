import { sum } from "../core/sum.js";

/** Shares of the scattering of a pot that its toners have, over all bands. */
export function scatteringShares(
  { toners, size, s }: { readonly toners: number; readonly size: number; readonly s: Float64Array },
  grams: ArrayLike<number>,
): Float64Array {
  const amounts = Float64Array.from({ length: toners }, (_, j) => {
    let sum = 0;
    for (let i = j * size; i < (j + 1) * size; i++) sum += s[i];
    return grams[j] * sum;
  });
  const total = sum(amounts);
  return amounts.map((amount) => amount / total);
}
