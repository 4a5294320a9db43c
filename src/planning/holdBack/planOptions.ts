import { numbersWithDefaults } from "../../core/shape/withDefaults.js";

/** What a plan takes for granted; every standard deviation is of a natural logarithm unless it says otherwise. */
export interface PlanOptions {
  /** Probability with which every panel must stay within reach of the first pot. */
  readonly reachProbability: number;
  /** A toner counts as identified when the first card leaves its ln strength no less certain than this. */
  readonly identifiedSd: number;
  /** Most that a pot may grow from one panel to the next by what is poured in, as a factor. */
  readonly mostGrowth: number;
  /** Most that the paint of a pot may exceed what is wanted of it, as a factor; the cup may be smaller. */
  readonly mostSurplus: number;
  /** How panels differ in exposure. */
  readonly doseSd: number;
  /** How unevenly one toner fades from panel to panel, beyond dose and lightfastness. */
  readonly unevenSd: number;
  /** How far the paint of the panels was off its formula when it was new. */
  readonly batchSd: number;
  /** Typical yellowing, as K/S added at 400 nm. */
  readonly yellowingSd: number;
  /** Wavelength over which yellowing falls by e, nm. */
  readonly yellowingWidth: number;
  /** What the model misses of a panel: ln(K/S) as a rough curve over the spectrum. */
  readonly curveSd: number;
  /** Worlds drawn, and the seed of the drawing. */
  readonly draws: number;
  readonly seed: number;
}

/** Common practice or our choice, no source; docs/evidence.md shows what they give in a world of other physics. */
export const PLAN_DEFAULTS: PlanOptions = Object.freeze({
  reachProbability: 0.95,
  identifiedSd: 0.1,
  mostGrowth: 1.5,
  mostSurplus: 1.1,
  doseSd: 0.5,
  unevenSd: 0.3,
  batchSd: 0.1,
  yellowingSd: 0.03,
  yellowingWidth: 40,
  curveSd: 0.1,
  draws: 1000,
  seed: 1,
});

/** What is left out keeps its default. */
export const PLAN_OPTIONS = numbersWithDefaults(
  PLAN_DEFAULTS,
  { min: 1e-3, max: 10 },
  {
    reachProbability: { min: 0.5, max: 0.995 },
    mostGrowth: { min: 1, max: 100 },
    mostSurplus: { min: 1, max: 100 },
    yellowingWidth: { min: 5, max: 200 },
    draws: { min: 200, max: 100_000, whole: true },
    seed: { min: 0, max: Number.MAX_SAFE_INTEGER, whole: true },
  },
);
