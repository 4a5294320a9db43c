import type { LearntStrengths } from "../toners/learntStrengths.js";
import type { TonerSet } from "../toners/tonerSet.js";

/** What is believed of ln strength of the cans of a toner set, in the order of its toners. */
export interface CanPrior {
  readonly logStrength: Float64Array;
  /** Row-major. */
  readonly covariance: Float64Array;
  /** Strength and sd of ln strength of a can that is opened new. */
  readonly newCan: LearntStrengths["newCan"];
}

/** What the set has learnt, else what it says of each toner, else strength 1 with `strengthSd` of ln strength. */
export function canPrior({ toners, learnt }: TonerSet, strengthSd: number): CanPrior {
  const size = toners.length;
  const newCan = Object.fromEntries(
    toners.map(({ id, strength = 1, strengthSd: sd = strengthSd }) => [
      id,
      learnt?.newCan[id] ?? { strength, strengthSd: sd },
    ]),
  );
  const covariance = new Float64Array(size * size);
  toners.forEach(({ id }, i) => {
    toners.forEach(({ id: other }, j) => {
      const unlearnt = i === j ? newCan[id].strengthSd ** 2 : 0;
      covariance[i * size + j] = learnt?.covariance[id]?.[other] ?? unlearnt;
    });
  });
  const logStrength = Float64Array.from(
    toners,
    ({ id }) => learnt?.logStrength[id] ?? Math.log(newCan[id].strength),
  );
  return { logStrength, covariance, newCan };
}
