import type { Lab } from "../colorimetry/lab.js";
import type { TristimulusWeights } from "../colorimetry/weights.js";
import type { Work } from "../core/createWork.js";
import type { ForwardModel } from "../forward/forwardModel.js";
import type { BeliefSizes } from "./beliefSizes.js";

/** What is believed before the first card of a pot. */
export interface Prior {
  /** Toners at full strength, tied to no card. */
  readonly model: ForwardModel;
  /** Mean of ln strength of every can, and their covariance, row-major. */
  readonly logStrength: Float64Array;
  readonly covariance: Float64Array;
  readonly sizes: BeliefSizes;
  /** Every look at the unknowns counts here, and so does every fault tried; without it nothing is counted. */
  readonly work?: Work;
}

/** A colour that an instrument gave without its spectrum. */
export interface SeenColour {
  /** Index into the geometries of the model. */
  readonly geometry: number;
  readonly tristimulus: TristimulusWeights;
  readonly lab: Lab;
  /** Of L*, a* and b* each. */
  readonly sd: number;
}

/** A card as it was read, and what the scale had shown of its pot. */
export interface ReadCard {
  readonly grams: Float64Array;
  /** Band by band over all geometries; where `isExpected`, what its pot is expected to read. */
  readonly reflectance: Float64Array;
  /** No spectrum was read. */
  readonly isExpected?: boolean;
  readonly colours?: readonly SeenColour[];
}
