import { numbersWithDefaults } from "../../core/shape/withDefaults.js";
import { ANCHOR_DEFAULTS } from "../../prediction/anchor.js";

/** What may make the next card differ from its prediction, each by its size; 0 leaves it out. */
export interface Doubts {
  /** Factor on the standard deviation of ln strength of every toner. */
  readonly strength: number;
  /** That standard deviation, for a toner whose `strengthSd` is absent. */
  readonly strengthSd: number;
  /** Standard deviation of each pour, in steps of the scale. */
  readonly pouring: number;
  /** Standard deviation of the reflectance of one reading, band by band: of this card and of the next. */
  readonly reading: number;
  /** The same for the targets. 0 forecasts against the panel as read, which is what the next correction will show. */
  readonly targetReading: number;
  /** Standard deviation of ln reflectance between cards sprayed from one pot: film build, gun, drying. */
  readonly spraying: number;
  /** Standard deviation of what the surface of a card adds to its reflectance: gloss, texture, fingerprints. */
  readonly gloss: number;
  /** Factor on the uncertainty modes of the toner set. */
  readonly characterisation: number;
  /** Share of what the additions change by which the model may miss it, as a standard deviation. */
  readonly model: number;
  /** Factor on the doubt between the two explanations of this card: see `anchorToCard`. */
  readonly tie: number;
}

/** The doubts that spread a colour by themselves. */
export type DoubtCause = Exclude<keyof Doubts, "strengthSd">;

/**
 * Half a step of the scale per pour and the errors of reading, spraying and gloss are common practice, no source. The
 * 5 % of the model were chosen in a world of other physics: docs/forecast.md.
 */
export const DOUBTS: Doubts = Object.freeze({
  strength: 1,
  strengthSd: ANCHOR_DEFAULTS.strengthSd,
  pouring: 0.5,
  reading: 0.0005,
  targetReading: 0,
  spraying: 0.003,
  gloss: 0.0006,
  characterisation: 1,
  model: 0.05,
  tie: 1,
});

/** Sizes ≥ 0; what is left out keeps its default. */
export const DOUBTS_SHAPE = numbersWithDefaults(DOUBTS, { min: 0, max: 100 });
