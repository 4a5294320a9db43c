import type { Posterior } from "./believe.js";
import { shownBy } from "./shownBy.js";

/** Variance diag(A·Aᵀ − B·Bᵀ) of `count` numbers with slopes A by unknown, B what was seen has shown of them. */
export function variances(posterior: Posterior, by: Float64Array, count: number): Float64Array {
  const variance = new Float64Array(count);
  by.forEach((value, i) => {
    variance[i % count] += value * value;
  });
  shownBy(posterior, by, count).forEach((value, i) => {
    variance[i % count] -= value * value;
  });
  return variance.map((value) => Math.max(0, value));
}

/** Of some unknowns, by index, the part of their variance of 1 that what was seen has taken: what Σu² is expected to be. */
export function determined(posterior: Posterior, some: readonly number[]): Float64Array {
  const by = new Float64Array(posterior.u.length * some.length);
  some.forEach((x, i) => {
    by[x * some.length + i] = 1;
  });
  return variances(posterior, by, some.length).map((left) => 1 - left);
}
