import { numbersWithDefaults } from "../../core/shape/withDefaults.js";
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
  /** What the model misses of each toner, the same on all cards of a pot: a smooth function in ln K, a level in ln S. */
  readonly tonerRatioSd: number;
  readonly tonerScatteringSd: number;
  /** How much ln strength of white falls from a pot with none of it to one of nothing else: white crowds itself. */
  readonly crowdingSd: number;
  /** What is a card's own: level, slope and curvature of ln(K/S). */
  readonly cardRatioSd: number;
  /** Gloss: a level of reflectance. */
  readonly cardReflectanceSd: number;
  /** Gun and calibration: a share of all reflectance, and one that tilts from − to + along the wavelengths. */
  readonly cardGainSd: number;
  readonly cardTiltSd: number;
  /** Film build: S·X of a card as it is sprayed, and sd of ln X from card to card. */
  readonly filmScattering: number;
  readonly filmBuildSd: number;
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
  potRatioSd: 0.03,
  strayAbsorptionSd: 0.002,
  k1Sd: 0.003,
  k2Sd: 0.02,
  k2RiseSd: 0.03,
  tonerRatioSd: 0.07,
  tonerScatteringSd: 0.1,
  crowdingSd: 0.2,
  cardRatioSd: 0.003,
  cardReflectanceSd: 0.001,
  cardGainSd: 0.003,
  cardTiltSd: 0.0007,
  filmScattering: 12,
  filmBuildSd: 0.1,
  pourSd: 0.03,
  pourShareSd: 0.002,
  gate: 0.999,
  leastBelief: 0.8,
});

const SHARE = { min: 0, max: 1 };

/** What is left out keeps its default. */
export const LEARNING_OPTIONS = numbersWithDefaults(
  LEARNING_DEFAULTS,
  { min: 0, max: 10 },
  {
    readingSd: { min: 0, max: 10, aboveMin: true },
    filmScattering: { min: 0, max: 1000 },
    gate: SHARE,
    leastBelief: SHARE,
  },
);
