/**
 * Around the corrections: what to pour of a formula for panels that have faded and what to keep back; what every card
 * says of the cans in use, and whether to pour, blend, read again, begin anew or stop; where a recorded job stands.
 * @module planning
 */

export type { Explanation, Fault } from "../belief/fault.js";
export type { CardVerdictWord } from "../belief/judge.js";
export type { WorkOptions } from "../core/workOptions.js";
export type { PanelFade, Remaining } from "../planning/fade/panelFade.js";
export type { RankedFormula } from "../planning/fade/rankFormulas.js";
export type { ExpectedCost } from "../planning/holdBack/expectedCost.js";
export type {
  CompromisePrice,
  ExpectedPour,
  HoldBackPlan,
  PlannedPanel,
  PlannedPot,
  PlannedStage,
  PouredNow,
  StartOfPot,
} from "../planning/holdBack/holdBackPlan.js";
export { planHoldBack } from "../planning/holdBack/planHoldBack.js";
export type { Formula, Panel, PlanJob } from "../planning/holdBack/planJob.js";
export { PLAN_DEFAULTS, type PlanOptions } from "../planning/holdBack/planOptions.js";
export { topUp } from "../planning/holdBack/topUp.js";
export type { CardBelief, CardVerdict, Learning, StrengthLearnt } from "../planning/learning/learning.js";
export type { LearningJob, PotCard, PotCards } from "../planning/learning/learningJob.js";
export { LEARNING_DEFAULTS, type LearningOptions } from "../planning/learning/learningOptions.js";
export { learnStrengths } from "../planning/learning/learnStrengths.js";
export { adviseNextStep, type NextStepOptions } from "../planning/nextStep/adviseNextStep.js";
export {
  type AdvisedCorrection,
  type NextStep,
  STEPS,
  type Step,
  type StepChoice,
} from "../planning/nextStep/nextStep.js";
export { STEP_PRICES, type StepPrices } from "../problem/stepPrices.js";
export type { Stage } from "../record/asked.js";
export type { Begun, BenchStep } from "../record/benchStep.js";
export { type JobState, jobState } from "../record/jobState.js";
export type { AdvisedStep, DatedEntry, Poured, RecordEntry } from "../record/recordEntry.js";
export { type NotedNext, type WhatNext, whatNext } from "../record/whatNext.js";
export { BLEND_ALLOWANCE_DEFAULTS, type BlendAllowance } from "../tolerance/blendAllowance.js";
export { FADE_PRIORS, type FadePrior, type FadePriors } from "../toners/fadePrior.js";
