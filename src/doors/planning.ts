/**
 * Around the corrections: what to pour of a formula for panels that have faded and what to keep back; what every card
 * says of the cans in use, and whether to pour, blend, read again, begin anew or stop; where a recorded job stands.
 * @module planning
 */
export { adviseNextStep, type NextStepOptions } from "../planning/adviseNextStep.js";
export type { ExpectedCost } from "../planning/expectedCost.js";
export { FADE_PRIORS, type FadePrior, type FadePriors } from "../planning/fadePrior.js";
export type { Fault } from "../planning/fault.js";
export type {
  CompromisePrice,
  ExpectedPour,
  HoldBackPlan,
  PlannedPanel,
  PlannedPot,
  PlannedStage,
  PouredNow,
  StartOfPot,
} from "../planning/holdBackPlan.js";
export { type BenchStep, type JobState, jobState } from "../planning/jobState.js";
export type { Explanation } from "../planning/judgeCard.js";
export type { CardVerdict, Learning, StrengthLearnt } from "../planning/learning.js";
export type { LearningJob, PotCard, PotCards } from "../planning/learningJob.js";
export { LEARNING_DEFAULTS, type LearningOptions } from "../planning/learningOptions.js";
export { learnStrengths } from "../planning/learnStrengths.js";
export type { ExpectedCard, NextStep, Step, StepChoice } from "../planning/nextStep.js";
export type { PanelFade, Remaining } from "../planning/panelFade.js";
export { planHoldBack } from "../planning/planHoldBack.js";
export type { Formula, Panel, PlanJob } from "../planning/planJob.js";
export { PLAN_DEFAULTS, type PlanOptions } from "../planning/planOptions.js";
export type { RankedFormula } from "../planning/rankFormulas.js";
export type { DatedEntry, RecordEntry } from "../planning/recordEntry.js";
export { STEP_PRICES, type StepPrices } from "../planning/stepPrices.js";
export { BLEND_ALLOWANCE_DEFAULTS, type BlendAllowance } from "../tolerance/blendAllowance.js";
