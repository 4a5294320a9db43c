import type { Causes } from "../belief/spread.js";
import type { Lab } from "../colorimetry/lab.js";
import type { Geometry } from "../surface/geometry.js";
import type { Grams } from "../toners/pot.js";
import type { RecoveryMargin } from "./recoveryMargin.js";

/** Where a number of the next card lies with the probability `level` of the forecast. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** What the next card will show of one target at one geometry under one light. */
export interface CardForecast {
  readonly target: string;
  readonly geometry: Geometry;
  readonly illuminant: string;
  /** The likeliest colour, and an interval for each of its numbers by itself. */
  readonly lab: Lab;
  readonly labLow: Lab;
  readonly labHigh: Lab;
  /** CIEDE2000 against the target: as likely below `low` as above `high`, by seeded draws. */
  readonly deltaE00: Interval;
  readonly deltaE00Median: number;
  /** Infinity (null in JSON) for a light of no weight. */
  readonly deltaE00Allowed: number;
}

/** What comes of pouring some grams at once and spraying a card. */
export interface PourForecast {
  readonly grams: Grams;
  readonly cards: readonly CardForecast[];
  /** Probability that the next card is within tolerance of every target. */
  readonly withinProbability: number;
  /** Probability that after the pour no additions bring every target within tolerance any more. */
  readonly noReturnProbability: number;
}

/** One addition, and how much of it to pour first. */
export interface FirstPour {
  readonly toner: string;
  readonly grams: number;
  /** In whole steps of the scale, or drops. */
  readonly firstGrams: number;
  /** α = 1/(1 + z·strengthSd); 1 for a toner that the card has identified. */
  readonly share: number;
  /** Standard deviation of ln strength against the paint in the pot, after what the card tells. */
  readonly strengthSd: number;
  readonly margin: RecoveryMargin;
}

/** What to expect of the next card, how much to pour first, and how much too much can be put right. */
export interface Forecast {
  readonly level: number;
  readonly safety: number;
  readonly pours: readonly FirstPour[];
  /** `full` when pouring all leaves a way back with the probability `safety`, or the first pours leave none either. */
  readonly pour: "full" | "first";
  /** When all is poured; when the first pours are. */
  readonly full: PourForecast;
  readonly first: PourForecast;
  /** Whose doubt is behind the variance of L*a*b* after the full pour, at the first geometry and light; they add up to 1. */
  readonly causes: Causes;
}
