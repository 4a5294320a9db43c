/**
 * The verbs of the job and their types: from a measured card and a target to the grams of each toner to add.
 * @module masstone
 */

export { BELIEF_SIZES, type BeliefSizes } from "../belief/beliefSizes.js";
export type { Explanation, Fault } from "../belief/fault.js";
export type { CardVerdictWord } from "../belief/judge.js";
export type { Cause, Causes, SeenThrough } from "../belief/spread.js";
export type { Owner } from "../belief/unknown.js";
export type { EyeGain } from "../belief/unknowns/instrument.js";
export type { IlluminantName, NamedIlluminant } from "../colorimetry/illuminant.js";
export type { Viewing, WeightedIlluminant } from "../colorimetry/viewing.js";
export { InputError, type InputErrorCode, isInputError } from "../core/InputError.js";
export type { Triple } from "../core/shape/triple.js";
export type { Warning, WarningCode } from "../core/warning.js";
export { WORK_DEFAULTS, type WorkOptions } from "../core/workOptions.js";
export { correct } from "../correction/correct.js";
export type {
  Addition,
  Alternative,
  AlternativeKind,
  CardOpinion,
  Choice,
  Correction,
  CorrectionRecord,
  CorrectionStatus,
  Expectation,
  FinerScale,
  NewPot,
  Obstacle,
  Pour,
  PourOff,
  TargetPrediction,
  Tie,
  UnusedToner,
  WayOut,
} from "../correction/correction.js";
export { CORRECT_DEFAULTS, type CorrectOptions } from "../correction/correctOptions.js";
export {
  type InferredReading,
  type InferredReadings,
  type InferredSurface,
  inferReadings,
} from "../correction/inferReadings.js";
export type { MixMetamerism } from "../correction/mixMetamerism.js";
export type { NextLook } from "../correction/nextLook.js";
export { firstShare } from "../forecast/firstShare.js";
export type {
  CardForecast,
  FirstPour,
  Forecast,
  Interval,
  PourForecast,
} from "../forecast/forecast.js";
export {
  type CheckedForecastOptions,
  FORECAST_DEFAULTS,
  type ForecastOptions,
} from "../forecast/forecastOptions.js";
export type { RecoveryMargin } from "../forecast/recoveryMargin.js";
export { ANCHOR_DEFAULTS, type AnchorOptions, anchorToCard } from "../forward/anchor.js";
export { createGradient, differentiate, type Gradient } from "../forward/differentiate.js";
export { createEvaluation, type Evaluation, evaluate } from "../forward/evaluate.js";
export {
  type Anchor,
  createForwardModel,
  type ForwardModel,
  type Light,
} from "../forward/forwardModel.js";
export type { ColourStep } from "../prediction/colourStep.js";
export {
  type Mix,
  type PredictedColour,
  type PredictedReading,
  type Prediction,
  predict,
} from "../prediction/predict.js";
export {
  type ColourMove,
  type MixOnCard,
  type TonerDirection,
  type TonerDirections,
  tonerDirections,
} from "../prediction/tonerDirections.js";
export { CORRECTION_OBJECTIVES, type CorrectionObjective } from "../problem/correctionObjective.js";
export type { Job, JobCard, Target } from "../problem/job.js";
export { LIMITS_DEFAULTS, type Limits } from "../problem/limits.js";
export type { SprayDiagnosis } from "../problem/spray/diagnoseSpray.js";
export type { TargetAngle, TargetAngles } from "../problem/targetAngles.js";
export type { ChosenBy } from "../problem/weighMix.js";
export type { Card } from "../scene/card.js";
export type { ColourReading } from "../scene/readings/colourReading.js";
export type { Comparison, Grades } from "../scene/readings/comparison.js";
export { EYE_SCALES, type EyeScale } from "../scene/readings/greyScale.js";
export type { SearchReport } from "../search/searchReport.js";
export type { Geometry } from "../surface/geometry.js";
export type { Reading } from "../surface/reading.js";
export type { Surface } from "../surface/surface.js";
export { TARGET_ROLES, type TargetRole, TOLERANCE_DEFAULTS, type Tolerance } from "../tolerance/tolerance.js";
export type { Coefficients } from "../toners/coefficients.js";
export type { LearntRepeat, LearntStrengths, NewCan, Repeated } from "../toners/learntStrengths.js";
export type { Orientation, TiltCurve } from "../toners/orientation.js";
export type { Grams } from "../toners/pot.js";
export { type SpectraByGeometry, TONER_ROLES, type Toner, type TonerRole } from "../toners/toner.js";
export type { TonerSet } from "../toners/tonerSet.js";
export type { LogChange, UncertaintyMode } from "../toners/uncertainty.js";
