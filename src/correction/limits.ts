import { checkInteger, checkKeys, checkNumber, checkRecord, pathTo } from "../core/check.js";
import { checkGrams, type Grams, MOST_GRAMS } from "../toners/pot.js";
import type { Toner } from "../toners/toner.js";

/** What the bench allows. */
export interface Limits {
  /** Most that the cup holds; ten times what is in the pot when absent. */
  readonly potMaxGrams?: number;
  /** The scale's smallest step; 0 leaves the grams unrounded. */
  readonly scaleStepGrams?: number;
  /** Most toners to pour in one correction. */
  readonly maxPours?: number;
  /** Grams left of a toner; a toner not named has no limit. */
  readonly stockGrams?: Grams;
}

/** Scale step, number of pours and how far a pot may grow: common practice, no source. */
export const LIMITS_DEFAULTS = Object.freeze({ scaleStepGrams: 0.1, maxPours: 4, timesThePot: 10 });

const KEYS = ["potMaxGrams", "scaleStepGrams", "maxPours", "stockGrams"] as const;

/** A closed record: an unknown key is refused, since a misspelt limit would be a limit lost. */
export function checkLimits(value: unknown, path: string, toners: readonly Toner[]): Limits {
  const record = checkRecord(value, path);
  checkKeys(record, path, KEYS);
  const at = (key: (typeof KEYS)[number]) => pathTo(path, key);
  const { potMaxGrams, scaleStepGrams, maxPours, stockGrams } = record;
  return {
    ...(potMaxGrams !== undefined && {
      potMaxGrams: checkNumber(potMaxGrams, at("potMaxGrams"), { min: 0, max: MOST_GRAMS, aboveMin: true }),
    }),
    ...(scaleStepGrams !== undefined && {
      scaleStepGrams: checkNumber(scaleStepGrams, at("scaleStepGrams"), { min: 0, max: 1000 }),
    }),
    ...(maxPours !== undefined && { maxPours: checkInteger(maxPours, at("maxPours"), { min: 1, max: 500 }) }),
    ...(stockGrams !== undefined && { stockGrams: checkGrams(stockGrams, at("stockGrams"), toners) }),
  };
}
