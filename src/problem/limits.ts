import { pathTo } from "../core/check.js";
import { map } from "../core/shape/map.js";
import { number } from "../core/shape/number.js";
import { optional } from "../core/shape/optional.js";
import { record } from "../core/shape/record.js";
import { checkToners, FINEST_GRAMS, GRAMS, type Grams, MOST_GRAMS } from "../toners/pot.js";
import type { HasId } from "../toners/tonerIndex.js";

/** What the bench allows. */
export interface Limits {
  /** Most that the cup holds; ten times what is in the pot when absent. */
  readonly potMaxGrams?: number;
  /** The scale's smallest step; 0.1 when absent, 0 leaves the grams unrounded. */
  readonly scaleStepGrams?: number;
  /** Least that can be poured of a toner on the scale, where any is; the scale's step when absent. */
  readonly minPourGrams?: number;
  /** Grams in a drop, of the toners that are dosed in whole drops instead of on the scale. */
  readonly gramsPerDrop?: Grams;
  /** Most toners to pour in one correction; 4 when absent. */
  readonly maxPours?: number;
  /** ΔE00 that one pour more must take off the rest; 0.05 when absent, 0 takes every pour that helps. */
  readonly pourWorthDeltaE00?: number;
  /**
   * Thrift: ΔE00 that as much paint again as the pot holds must take off the rest to be worth its while. The first half
   * as much is free; 0 asks for the closest match whatever paint it takes.
   */
  readonly paintWorthDeltaE00?: number;
  /** Grams left of a toner; a toner not named has no limit. */
  readonly stockGrams?: Grams;
}

/**
 * Scale step, number of pours and how far a pot may grow: common practice, no source. What a pour must be worth: less
 * does not show between two readings of one card (design value). What paint must be worth is a design value too.
 */
export const LIMITS_DEFAULTS = Object.freeze({
  scaleStepGrams: 0.1,
  maxPours: 4,
  timesThePot: 10,
  pourWorthDeltaE00: 0.05,
  paintWorthDeltaE00: 0.2,
});

/** The coarsest step of a scale, and the heaviest drop. */
const COARSEST_GRAMS = 1000;

/** Smallest step of a scale; 0 where nothing is rounded. */
export const SCALE_STEP = number({ min: FINEST_GRAMS, max: COARSEST_GRAMS, orZero: true });

/** The shape of the limits; `checkLimits` also checks that the toner set has the toners they name. */
export const LIMITS = record<Limits>({
  potMaxGrams: optional(number({ min: FINEST_GRAMS, max: MOST_GRAMS })),
  scaleStepGrams: optional(SCALE_STEP),
  minPourGrams: optional(number({ min: 0, max: MOST_GRAMS })),
  gramsPerDrop: optional(map(number({ min: FINEST_GRAMS, max: COARSEST_GRAMS }))),
  maxPours: optional(number({ min: 1, max: 500, whole: true })),
  pourWorthDeltaE00: optional(number({ min: 0, max: 100 })),
  paintWorthDeltaE00: optional(number({ min: 0, max: 100 })),
  stockGrams: optional(GRAMS),
});

/** Limits whose toners are there. Throws `unknown-toner`. */
export function checkLimits(value: unknown, path: string, toners: readonly HasId[]): Limits {
  const limits = LIMITS.check(value, path);
  for (const key of ["gramsPerDrop", "stockGrams"] as const) {
    checkToners(limits[key] ?? {}, pathTo(path, key), toners);
  }
  return limits;
}
