import {
  BELIEF_RANGES,
  BELIEF_SIZES,
  type BeliefSizes,
  beliefSizesOf,
  SIZE,
} from "../../belief/beliefSizes.js";
import { someNumbers } from "../../core/shape/someNumbers.js";
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

/** Options as they may be given; what is left out is as `learningOptionsFor` has it. */
export const LEARNING_OPTIONS = someNumbers(LEARNING_DEFAULTS, SIZE, BELIEF_RANGES);

/** What is left out is as the toner set has it, else as `LEARNING_DEFAULTS`. */
export function learningOptionsFor(
  set: Pick<TonerSet, "misfit" | "learnt">,
  given: Partial<LearningOptions> = {},
): LearningOptions {
  return { ...LEARNING_DEFAULTS, ...beliefSizesOf(set), ...given };
}
