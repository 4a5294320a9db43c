import type { Belief } from "./belief.js";
import { shownBy } from "./shownBy.js";

/** What is believed of ln strength of the cans, in the order of the toner set; the covariance row-major. */
export interface CanBelief {
  readonly logStrength: Float64Array;
  readonly covariance: Float64Array;
}

/** Posterior of the cans: mean + R·u, covariance R·Rᵀ minus what the cards have shown. */
export function canPosterior({ prior, scope, posterior }: Belief): CanBelief {
  const toners = prior.logStrength.length;
  const by = new Float64Array(scope.unknowns.length * toners);
  scope.unknowns.forEach(({ owner, effects }, x) => {
    if (owner !== "can") return;
    for (const { toner, shape } of effects) by[x * toners + toner] = shape[0];
  });
  const shown = shownBy(posterior, by, toners);
  const logStrength = prior.logStrength.slice();
  const covariance = new Float64Array(toners * toners);
  posterior.u.forEach((value, x) => {
    for (let j = 0; j < toners; j++) logStrength[j] += value * by[x * toners + j];
  });
  const add = (rows: Float64Array, sign: number) => {
    for (let x = 0; x < rows.length; x += toners) {
      for (let i = 0; i < toners; i++) {
        if (rows[x + i] === 0) continue;
        for (let j = 0; j < toners; j++) covariance[i * toners + j] += sign * rows[x + i] * rows[x + j];
      }
    }
  };
  add(by, 1);
  add(shown, -1);
  return { logStrength, covariance };
}
