import { checkInteger, checkKeys, checkNumber, checkRecord, pathTo } from "../core/check.js";
import { checkGrams, type Grams, MOST_GRAMS } from "../toners/pot.js";
import type { Toner } from "../toners/toner.js";

/** What the bench allows. */
export interface Limits {
  /** Most that the cup holds; ten times what is in the pot when absent. */
  readonly potMaxGrams?: number;
  /** The scale's smallest step; 0 leaves the grams unrounded. */
  readonly scaleStepGrams?: number;
  /** Least that can be poured of a toner on the scale, where any is; the scale's step when absent. */
  readonly minPourGrams?: number;
  /** Grams in a drop, of the toners that are dosed in whole drops instead of on the scale. */
  readonly gramsPerDrop?: Grams;
  /** Most toners to pour in one correction. */
  readonly maxPours?: number;
  /** ΔE00 that one pour more must take off the rest to be worth its while. */
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

const KEYS = [
  "potMaxGrams",
  "scaleStepGrams",
  "minPourGrams",
  "gramsPerDrop",
  "maxPours",
  "pourWorthDeltaE00",
  "paintWorthDeltaE00",
  "stockGrams",
] as const;

/** A closed record: an unknown key is refused, since a misspelt limit would be a limit lost. */
export function checkLimits(value: unknown, path: string, toners: readonly Toner[]): Limits {
  const record = checkRecord(value, path);
  checkKeys(record, path, KEYS);
  const at = (key: (typeof KEYS)[number]) => pathTo(path, key);
  const { potMaxGrams, scaleStepGrams, minPourGrams, gramsPerDrop, maxPours, stockGrams } = record;
  const { pourWorthDeltaE00, paintWorthDeltaE00 } = record;
  return {
    ...(potMaxGrams !== undefined && {
      potMaxGrams: checkNumber(potMaxGrams, at("potMaxGrams"), { min: 0, max: MOST_GRAMS, aboveMin: true }),
    }),
    ...(scaleStepGrams !== undefined && {
      scaleStepGrams: checkNumber(scaleStepGrams, at("scaleStepGrams"), { min: 0, max: 1000 }),
    }),
    ...(minPourGrams !== undefined && {
      minPourGrams: checkNumber(minPourGrams, at("minPourGrams"), { min: 0, max: MOST_GRAMS }),
    }),
    ...(gramsPerDrop !== undefined && {
      gramsPerDrop: checkDrops(gramsPerDrop, at("gramsPerDrop"), toners),
    }),
    ...(pourWorthDeltaE00 !== undefined && {
      pourWorthDeltaE00: checkNumber(pourWorthDeltaE00, at("pourWorthDeltaE00"), { min: 0, max: 100 }),
    }),
    ...(paintWorthDeltaE00 !== undefined && {
      paintWorthDeltaE00: checkNumber(paintWorthDeltaE00, at("paintWorthDeltaE00"), { min: 0, max: 100 }),
    }),
    ...(maxPours !== undefined && { maxPours: checkInteger(maxPours, at("maxPours"), { min: 1, max: 500 }) }),
    ...(stockGrams !== undefined && { stockGrams: checkGrams(stockGrams, at("stockGrams"), toners) }),
  };
}

/** A drop of nothing would be no drop. */
function checkDrops(value: unknown, path: string, toners: readonly Toner[]): Grams {
  const drops = checkGrams(value, path, toners);
  for (const id of Object.keys(drops)) {
    checkNumber(drops[id], pathTo(path, id), { min: 0, max: 1000, aboveMin: true });
  }
  return drops;
}
