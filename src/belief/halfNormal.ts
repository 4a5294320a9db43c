import {
  normalDensity,
  normalProbability,
  normalQuantile,
} from "../numeric/probability/normalProbability.js";

/** Beyond it the tails are closer to 0 and to x than anything that is read. */
const FURTHEST = 6;

/** h(x) = Φ⁻¹((1 + Φ(x))/2): half normal where x is standard normal, so ≥ 0; 0.674 at x = 0. */
export function halfNormal(x: number): number {
  const at = Math.max(-FURTHEST, Math.min(FURTHEST, x));
  return normalQuantile((1 + normalProbability(at)) / 2);
}

/** h′(x) = φ(x)/(2φ(h(x))). */
export function halfNormalSlope(x: number): number {
  return Math.abs(x) >= FURTHEST ? 0 : normalDensity(x) / (2 * normalDensity(halfNormal(x)));
}
