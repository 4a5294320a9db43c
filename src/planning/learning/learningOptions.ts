import { checkKeys, checkNumber, checkRecord, pathTo } from "../../core/check.js";
import { ANCHOR_DEFAULTS } from "../../prediction/anchor.js";

/** What is taken to be true of cans, cards and instruments when strengths are learnt. All sd are of normal laws. */
export interface LearningOptions {
  /** Sd of ln strength of a can of which the toner set says nothing. */
  readonly strengthSd: number;
  /** Sd of the walk of ln strength over one day; it grows with the root of the days. */
  readonly ageingSdPerRootDay: number;
  /** Noise of the instrument, band by band, in reflectance. */
  readonly readingSd: number;
  /** What the model misses of a pot, the same on all its cards: a smooth function in ln(K/S). */
  readonly potRatioSd: number;
  /** Absorption of the first pot that is no toner's, as a share of its scattering; smooth, the same on all cards. */
  readonly strayAbsorptionSd: number;
  /** Doubt in k1 and k2 of the surface, and in how much k2 falls from dark to light paint. */
  readonly k1Sd: number;
  readonly k2Sd: number;
  readonly k2RiseSd: number;
  /** What is a card's own (film build, gun, gloss): level, slope and curvature of ln(K/S); level of reflectance. */
  readonly cardRatioSd: number;
  readonly cardReflectanceSd: number;
  /** Error of what the scale shows of one pour: grams, and share of the pour. */
  readonly pourSd: number;
  readonly pourShareSd: number;
  /** A card further out than this share of all cards is not learnt from. */
  readonly gate: number;
  /** A card that is sound with less than this probability is not learnt from. */
  readonly leastBelief: number;
}

/**
 * Defaults of `learnStrengths`. Strength as in the tie to the card; ageing, noise and beliefs have
 * no source: they were set by the simulated cards of docs/learning.md.
 */
export const LEARNING_DEFAULTS: LearningOptions = Object.freeze({
  strengthSd: ANCHOR_DEFAULTS.strengthSd,
  ageingSdPerRootDay: 0.005,
  readingSd: 0.001,
  potRatioSd: 0.08,
  strayAbsorptionSd: 0.002,
  k1Sd: 0.003,
  k2Sd: 0.02,
  k2RiseSd: 0.03,
  cardRatioSd: 0.012,
  cardReflectanceSd: 0.001,
  pourSd: 0.03,
  pourShareSd: 0.002,
  gate: 0.995,
  leastBelief: 0.5,
});

/** A closed record; what is left out keeps its default. */
export function checkLearningOptions(value: unknown, path: string): LearningOptions {
  const record = checkRecord(value, path);
  const keys = Object.keys(LEARNING_DEFAULTS) as (keyof LearningOptions)[];
  checkKeys(record, path, keys);
  const most = (key: keyof LearningOptions) => (key === "gate" || key === "leastBelief" ? 1 : 10);
  const isNoise = (key: keyof LearningOptions) => key === "readingSd";
  return Object.fromEntries(
    keys.map((key) => [
      key,
      record[key] === undefined
        ? LEARNING_DEFAULTS[key]
        : checkNumber(record[key], pathTo(path, key), { min: 0, max: most(key), aboveMin: isNoise(key) }),
    ]),
  ) as unknown as LearningOptions;
}
