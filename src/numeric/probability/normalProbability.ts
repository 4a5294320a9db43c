import { checkNumber } from "../../core/check.js";
import { findRoot } from "../scalar/root.js";

/** Beyond this many standard deviations the series below would cost more terms than it has digits to give. */
const FURTHEST = 8;

/**
 * Φ(x), the probability that a standard normal number is at most x; absolute error below 1e-14.
 * Φ(x) = ½ + φ(x)·(x + x³/3 + x⁵/(3·5) + …). Source: Marsaglia 2004. Inverse of `normalQuantile`.
 */
export function normalProbability(x: number): number {
  if (x <= -FURTHEST) return 0;
  if (x >= FURTHEST) return 1;
  let term = x;
  let sum = x;
  for (let odd = 3; Math.abs(term) > Number.EPSILON * Math.abs(sum); odd += 2) {
    term *= (x * x) / odd;
    sum += term;
  }
  return 0.5 + (sum * Math.exp((-x * x) / 2)) / Math.sqrt(2 * Math.PI);
}

/** φ(x), the density of the same. */
export function normalDensity(x: number): number {
  return Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
}

/** x with Φ(x) = p, for 1e-12 ≤ p ≤ 1 − 1e-12. Throws `out-of-range`. */
export function normalQuantile(p: number): number {
  checkNumber(p, "p", { min: 1e-12, max: 1 - 1e-12 });
  return findRoot((x) => normalProbability(x) - p, -FURTHEST, FURTHEST).x;
}
