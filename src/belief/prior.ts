import type { ForwardModel } from "../prediction/forwardModel.js";
import type { BeliefSizes } from "./beliefSizes.js";

/** What is believed before the first card of a pot. */
export interface Prior {
  /** Toners at full strength, tied to no card. */
  readonly model: ForwardModel;
  /** Mean of ln strength of every can, and their covariance, row-major. */
  readonly logStrength: Float64Array;
  readonly covariance: Float64Array;
  readonly sizes: BeliefSizes;
}

/** A card as it was read, and what the scale had shown of its pot. */
export interface ReadCard {
  readonly grams: Float64Array;
  readonly reflectance: Float64Array;
}
