import { normalQuantile } from "../numeric/probability/normalProbability.js";
import { stepsWithin } from "../numeric/scalar/stepsWithin.js";
import { withoutTail } from "../numeric/scalar/withoutTail.js";

/**
 * Share α = 1/(1 + z·σ) of an addition to pour first, so that a can 1 + zσ times as strong as said gives no more than
 * was wanted: σ standard deviation of its strength, z the quantile of `safety`. σ = 0.15 at 95 % gives 0.80: the "70 to
 * 80 % first" of common practice (no source).
 */
export function firstShare(strengthSd: number, safety: number): number {
  return 1 / (1 + normalQuantile(safety) * strengthSd);
}

/** Whole steps of the scale in `share` of some grams: at least one, since less cannot be poured. */
export function wholeSteps(grams: number, share: number, step: number): number {
  if (share >= 1) return grams;
  if (step === 0) return share * grams;
  const count = Math.max(1, stepsWithin(share * grams, step));
  return Math.min(grams, withoutTail(count * step));
}
