import { BELIEF_SIZES, type BeliefSizes, beliefSizesOf } from "../../belief/beliefSizes.js";
import { checkNumberRecord } from "../../core/check.js";
import type { TonerSet } from "../../toners/tonerSet.js";

/** What is taken to be true of cans, paint, cards and instruments when strengths are learnt. */
export interface LearningOptions extends BeliefSizes {
  /** Sd of the walk of ln strength over one day; it grows with the root of the days. */
  readonly ageingSdPerRootDay: number;
}

/** Sizes as in every belief; ageing has no source. */
export const LEARNING_DEFAULTS: LearningOptions = Object.freeze({
  ...BELIEF_SIZES,
  ageingSdPerRootDay: 0.005,
});

/** A closed record; what is left out is as the toner set has it, else as `LEARNING_DEFAULTS`. */
export function checkLearningOptions(
  value: unknown,
  path: string,
  set: Pick<TonerSet, "misfit">,
): LearningOptions {
  return checkNumberRecord(value, path, { ...LEARNING_DEFAULTS, ...beliefSizesOf(set) }, (key) => ({
    min: 0,
    max: key === "filmScattering" ? 1000 : 10,
    aboveMin: key === "readingSd" || key === "filmScattering",
  }));
}
