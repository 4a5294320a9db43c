import { addLeft } from "./addLeft.js";
import type { Belief } from "./belief.js";

/** What is believed of ln strength of the cans, in the order of the toner set; the covariance row-major. */
export interface CanBelief {
  readonly logStrength: Float64Array;
  readonly covariance: Float64Array;
}

/** Posterior of the cans: mean + R·u, covariance what the cards leave of R·Rᵀ. */
export function canPosterior({ prior, scope, posterior }: Belief): CanBelief {
  const toners = prior.logStrength.length;
  const by = new Float64Array(scope.unknowns.length * toners);
  scope.unknowns.forEach(({ owner, effects }, x) => {
    if (owner !== "can") return;
    for (const { toner, shape } of effects) by[x * toners + toner] = shape[0];
  });
  const logStrength = prior.logStrength.slice();
  const covariance = new Float64Array(toners * toners);
  posterior.u.forEach((value, x) => {
    for (let j = 0; j < toners; j++) logStrength[j] += value * by[x * toners + j];
  });
  addLeft(posterior, by, covariance);
  return { logStrength, covariance };
}
