import type { CanBelief } from "./canPosterior.js";

/**
 * Sd of ln strength of each toner against the pot as a whole: of θⱼ − Σwθ with w the toners' shares of the pot's
 * scattering. A common factor of all strengths shows on no opaque film, so this is what more of toner j would reveal.
 */
export function sdsInPot({ logStrength: mean, covariance }: CanBelief, shares: Float64Array): Float64Array {
  const size = mean.length;
  const withPot = mean.map((_, j) => shares.reduce((sum, w, i) => sum + w * covariance[j * size + i], 0));
  const ofPot = shares.reduce((sum, w, j) => sum + w * withPot[j], 0);
  return mean.map((_, j) => Math.sqrt(Math.max(0, covariance[j * size + j] - 2 * withPot[j] + ofPot)));
}
