/**
 * Readings of drawdowns and tint ladders to toners: their K and S with uncertainty, quality and advice.
 * @module characterisation
 */
export type {
  Characterisation,
  CharacterisationBasis,
  CharacterisationMethod,
  Estimate,
  NextMeasurement,
  NotIdentifiable,
  ReadingQuality,
  SampleQuality,
  SurfaceEstimate,
  TonerQuality,
} from "../characterisation/characterisation.js";
export {
  CHARACTERISATION_DEFAULTS,
  type CharacterisationOptions,
  SURFACE_CONSTANTS,
  type SurfaceConstant,
} from "../characterisation/characterisationOptions.js";
export { characterise, type Progress } from "../characterisation/characterise.js";
export type { Candidate, CharacterisationJob } from "../characterisation/job.js";
export type { Sample, SampleReading } from "../characterisation/sample.js";
export type { WorkOptions } from "../core/workOptions.js";
export type { TonerToFind } from "../toners/toner.js";
