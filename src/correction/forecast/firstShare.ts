import { normalQuantile } from "../../numeric/normalProbability.js";
import { withoutTail } from "../../numeric/withoutTail.js";
import { mix } from "../../toners/coefficients.js";
import type { SprayedCard } from "./nextCard.js";
import type { StrengthBelief } from "./strengthBelief.js";

/** Slack in counting whole steps, so that 0.3 g is three steps of 0.1 g. */
const SLACK = 1e-9;

/**
 * Share α = 1/(1 + z·σ) of an addition to pour first, so that a can 1 + zσ times as strong as said gives no more than
 * was wanted: σ standard deviation of its strength, z the quantile of `safety`. σ = 0.15 at 95 % gives 0.80: the "70 to
 * 80 % first" of common practice (no source).
 */
export function firstShare(strengthSd: number, safety: number): number {
  return 1 / (1 + normalQuantile(safety) * strengthSd);
}

/**
 * Standard deviation of ln strength of toner `j` against the paint in the pot, which is what its addition works
 * against: of θⱼ − Σ wᵢθᵢ, w the share of toner i in the scattering of the pot, since the card has fixed K/S.
 */
export function relativeStrengthSd({ bare, pot }: SprayedCard, { modes }: StrengthBelief, j: number): number {
  const { size } = bare.coefficients;
  const sums = { k: new Float64Array(size), s: new Float64Array(size) };
  const scatteringOf = (amounts: Float64Array) => {
    mix(bare.coefficients, amounts, sums.k, sums.s);
    return sums.s.reduce((sum, value) => sum + value, 0);
  };
  const all = scatteringOf(pot);
  const shares = pot.map((grams, i) =>
    grams === 0 ? 0 : scatteringOf(pot.map((_, n) => (n === i ? grams : 0))) / all,
  );
  const variance = modes.reduce((sum, mode) => {
    const ofPot = mode.reduce((inner, value, i) => inner + value * shares[i], 0);
    return sum + (mode[j] - ofPot) ** 2;
  }, 0);
  return Math.sqrt(variance);
}

/** Whole steps of the scale in `share` of some grams: at least one, since less cannot be poured. */
export function wholeSteps(grams: number, share: number, step: number): number {
  if (share >= 1) return grams;
  if (step === 0) return share * grams;
  const count = Math.max(1, Math.floor((share * grams) / step + SLACK));
  return Math.min(grams, withoutTail(count * step));
}
