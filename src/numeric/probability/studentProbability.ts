import { checkInteger, checkNumber } from "../../core/check.js";
import { InputError } from "../../core/InputError.js";
import { findRoot } from "../scalar/root.js";

/** Farther out than any quantile that is asked for. */
const FURTHEST = 1e6;

/**
 * Probability that a number of Student's law with an odd count ν of degrees of freedom is at most t:
 * ½ + (θ + sin θ·(cos θ + ⅔cos³θ + … ))/π, θ = atan(t/√ν). Throws `out-of-range` for an even ν.
 * Source: Abramowitz & Stegun 1964, 26.7.3. Inverse of `studentQuantile`.
 */
export function studentProbability(t: number, freedom: number): number {
  checkInteger(freedom, "freedom", { min: 1 });
  if (freedom % 2 === 0) throw new InputError("out-of-range", "freedom", `${freedom} is even`);
  const angle = Math.atan(t / Math.sqrt(freedom));
  const cos = Math.cos(angle);
  let term = cos;
  let sum = 0;
  for (let n = 1; n < freedom; n += 2) {
    sum += term;
    term *= ((n + 1) / (n + 2)) * cos * cos;
  }
  return 0.5 + (angle + Math.sin(angle) * sum) / Math.PI;
}

/** t with the given probability below it, for 1e-6 ≤ p ≤ 1 − 1e-6. */
export function studentQuantile(p: number, freedom: number): number {
  checkNumber(p, "p", { min: 1e-6, max: 1 - 1e-6 });
  return findRoot((t) => studentProbability(t, freedom) - p, -FURTHEST, FURTHEST).x;
}
