import type { Correction } from "../../correction/correction.js";
import type { NextLook } from "../../correction/nextLook.js";
import type { PourForecast } from "../../forecast/forecast.js";
import type { StepPrices } from "../../problem/stepPrices.js";
import type { Grams } from "../../toners/pot.js";

/** What there is to do once a card is read. */
export const STEPS = [
  "good-enough",
  "blend",
  "pour",
  "re-measure",
  "compare",
  "respray",
  "other-flake",
  "pour-off",
  "new-pot",
] as const;

/** What to do now that the card is read. */
export type Step = (typeof STEPS)[number];

/** A step that could be taken, in the unit of the prices. */
export interface StepChoice {
  readonly step: Step;
  /** Which pour: all that the correction asks for, or the first pours. */
  readonly pour?: "full" | "first";
  /** What to pour; of a new pot its recipe, where the correction has one. */
  readonly grams?: Grams;
  /** What to pour off before that. */
  readonly gramsOff?: number;
  /** Of a pour: what its card may show. */
  readonly chances?: Pick<PourForecast, "withinProbability" | "noReturnProbability">;
  /** What it costs for certain. */
  readonly price: number;
  /** All together: the price, and what is to be expected after it. */
  readonly expectedLoss: number;
}

/** The step of least expected loss, why, and all that it was weighed against. */
export interface NextStep {
  readonly step: Step;
  readonly pour?: "full" | "first";
  readonly grams?: Grams;
  readonly gramsOff?: number;
  readonly chances?: NonNullable<StepChoice["chances"]>;
  /** What to hold beside what, where the step is `compare`. */
  readonly look?: NextLook;
  /** In words, with the numbers behind them. */
  readonly reasons: readonly string[];
  /** Least expected loss first; empty where the readings cannot carry an answer. */
  readonly choices: readonly StepChoice[];
  /** Probability that the paint as it is now is within tolerance of every target; null where nothing can be told. */
  readonly withinNow: number | null;
  readonly prices: StepPrices;
}

/** A correction with what to do next, as the command line writes it. */
export type AdvisedCorrection = Correction & {
  /** The stop rule. */
  readonly nextStep?: NextStep;
  /** Before anything is sprayed. */
  readonly caution?: string;
};
