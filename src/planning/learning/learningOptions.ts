import { BELIEF_RANGES, BELIEF_SIZES, type BeliefSizes, SIZE } from "../../belief/beliefSizes.js";
import { numbersWithDefaults } from "../../core/shape/withDefaults.js";

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

/** What is left out keeps its default. */
export const LEARNING_OPTIONS = numbersWithDefaults(LEARNING_DEFAULTS, SIZE, BELIEF_RANGES);
