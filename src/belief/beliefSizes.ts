import { someNumbers } from "../core/shape/someNumbers.js";
import type { TonerSet } from "../toners/tonerSet.js";
import { taughtSizes } from "./taughtSizes.js";

/** How far cans, toners, paint, cards and instruments may be off beforehand; standard deviations of normal laws. */
export interface BeliefSizes {
  /** Of ln strength of a can of which the toner set says nothing. */
  readonly strengthSd: number;
  /** Of a toner's ln K, a rough curve along the wavelengths, and of its ln S, a level; per unit of its misfit. */
  readonly tonerCurveSd: number;
  readonly tonerScatteringSd: number;
  /** Of ln(K/S) of a paint, a rough curve shared by paints as far as they look alike. */
  readonly paintCurveSd: number;
  /** Of ln strength that a toner has in one film and not in others: strength depends on company. */
  readonly companySd: number;
  /** Of k2 of the surface, and of its rise from R∞ = 0 to 1. */
  readonly k2Sd: number;
  readonly k2RiseSd: number;
  /** Of one film: reflectance added by gloss, its share of all reflectance, the tilt of that along the wavelengths. */
  readonly offsetSd: number;
  readonly gainSd: number;
  readonly tiltSd: number;
  /** Of ln film build, and the usual S·X of a sprayed film. */
  readonly filmBuildSd: number;
  readonly filmScattering: number;
  /** Of ln width of the tilts of flakes: a card against the ladder, and the next card against the last. */
  readonly spraySd: number;
  readonly sprayRepeatSd: number;
  /** Of one band of one reading, by itself. */
  readonly readingSd: number;
  /** Of a pour: grams, and share of the pour. */
  readonly pourSd: number;
  readonly pourShareSd: number;
}

/**
 * What a study on measured paint and on two worlds of other physics found to work (docs/evidence.md). Pouring, gloss and
 * film build, and how far spraying repeats, are common practice, no source.
 */
export const BELIEF_SIZES: BeliefSizes = Object.freeze({
  strengthSd: 0.2,
  tonerCurveSd: 0.08,
  tonerScatteringSd: 0.1,
  paintCurveSd: 0.03,
  companySd: 0,
  k2Sd: 0.05,
  k2RiseSd: 0.1,
  offsetSd: 0.001,
  gainSd: 0.003,
  tiltSd: 0.0007,
  filmBuildSd: 0.1,
  filmScattering: 12,
  spraySd: 0.1,
  sprayRepeatSd: 0.02,
  readingSd: 0.001,
  pourSd: 0.03,
  pourShareSd: 0.002,
});

/** The same of a paint line whose toners act differently in every company, per unit of its misfit. */
export const BADLY_BEHAVED_SIZES: BeliefSizes = Object.freeze({
  ...BELIEF_SIZES,
  paintCurveSd: 0.08,
  companySd: 0.2,
});

/** Between the misfit of measured oil paints, 1.3, and of simulated refinish paint, 0.25 (docs/decisions.md). */
const BADLY_BEHAVED = 0.7;

/**
 * `BELIEF_SIZES`, those of the paint larger where the toner set says that its line is badly behaved, those of films as
 * cards have taught them.
 */
export function beliefSizesOf({ misfit = 0, learnt }: Pick<TonerSet, "misfit" | "learnt">): BeliefSizes {
  const { paintCurveSd, companySd } = BADLY_BEHAVED_SIZES;
  const isBad = misfit >= BADLY_BEHAVED;
  return {
    ...BELIEF_SIZES,
    ...(isBad && { paintCurveSd: misfit * paintCurveSd, companySd: misfit * companySd }),
    ...(learnt && taughtSizes(learnt)),
  };
}

/** The range of a size, and of those that have one of their own. */
export const SIZE = { min: 0, max: 10 } as const;
export const BELIEF_RANGES = {
  filmScattering: { min: 0, max: 1000, aboveMin: true },
  readingSd: { ...SIZE, aboveMin: true },
} as const;

/** Sizes of a shop's own; what is left out is as `beliefSizesOf` the toner set has it. */
export const BELIEF_SIZES_SHAPE = someNumbers(BELIEF_SIZES, SIZE, BELIEF_RANGES);
