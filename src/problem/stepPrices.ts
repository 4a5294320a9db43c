import { numbersWithDefaults } from "../core/shape/withDefaults.js";

/** What each step costs, all in one unit: minutes of work unless a shop puts its money here. */
export interface StepPrices {
  /** A card: pouring, stirring, spraying, drying, reading. */
  readonly card: number;
  /** Reading card and panels once more. */
  readonly reading: number;
  /** Running the colour out into the neighbours, beyond painting up to the edge. */
  readonly blend: number;
  /** Weighing and stirring a new pot. */
  readonly newPot: number;
  /** A gram of paint poured or thrown away. */
  readonly gram: number;
  /** Doing the panels again because the colour is seen. */
  readonly redo: number;
}

/** Half an hour a card is common practice; the others are our guess of the same kind. No source: put your own. */
export const STEP_PRICES: StepPrices = Object.freeze({
  card: 30,
  reading: 3,
  blend: 45,
  newPot: 30,
  gram: 0.1,
  redo: 300,
});

/** Prices ≥ 0; what is left out keeps its default. */
export const STEP_PRICES_SHAPE = numbersWithDefaults(STEP_PRICES, { min: 0, max: 1e6 });
