import { chiSquareTail } from "../../numeric/chiSquareTail.js";
import { type Fault, type FaultSources, faultModels, soundShare } from "./fault.js";
import { fitPot, type PotFit } from "./fitPot.js";
import type { LearningOptions } from "./learningOptions.js";
import type { Belief, CardModel, PotModel } from "./potModel.js";

/** An explanation of a card and how probable it is, given the card. */
export interface Explanation {
  readonly fault: Fault;
  readonly probability: number;
}

/** Whether a card can be believed, and why not. */
export interface Judgement {
  readonly verdict: "believed" | "doubted";
  /** How far the card is from what was expected of it, and the share of sound cards that are further. */
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  readonly tail: number;
  /** How probable it is that nothing is wrong with the card and the pours before it. */
  readonly soundProbability: number;
  /** The likeliest first. */
  readonly explanations: readonly Explanation[];
  /** What the card teaches where it is believed. */
  readonly fit: PotFit;
  /** Noise of the readings as these cards show it. */
  readonly readingSd: number;
}

/** Explanations less probable than this against all others are not told. */
const LEAST_TOLD = 0.02;
/** A fault that makes χ² this much worse than none has odds below e⁻²⁰, and is not fitted to the end. */
const HOPELESS = 50;

/**
 * Compares the card with what the believed cards of its pot lead to expect: χ² of its innovation, and the evidence
 * for each single fault against none (Bayes factors by Laplace's approximation). Doubted outside the gate, and where
 * soundness is less probable than `leastBelief`. Source: Kass & Raftery 1995 for the comparison.
 */
export function judgeCard(
  expected: PotModel,
  belief: Belief,
  {
    believed,
    sources,
  }: { readonly believed: readonly FaultSources["card"][]; readonly sources: FaultSources },
  { gate, leastBelief }: LearningOptions,
): Judgement {
  const { card } = sources;
  const pot = withNoise(expected, belief, [...believed, card]);
  const before = believed.length === 0 ? 0 : fitPot(pot, belief, believed).chiSquare;
  const fit = fitPot(pot, belief, [...believed, card]);
  const chiSquare = Math.max(0, fit.chiSquare - before);
  const degreesOfFreedom = card.reflectance.length;
  const tail = chiSquareTail(chiSquare, degreesOfFreedom);
  const faults = faultModels(sources).map(({ prior, model, describe }) => {
    const isAlike = model.shapes === card.shapes && model.offsets === card.offsets;
    const cards = [...believed, model];
    const { logEvidence, misPour } = fitPot(pot, belief, cards, {
      start: isAlike ? fit.unknowns : [],
      giveUpAbove: fit.chiSquare + HOPELESS,
    });
    return {
      fault: describe(misPour),
      logOdds: Math.log(prior / soundShare()) + logEvidence - fit.logEvidence,
    };
  });
  // Relative to the likeliest, so that no odds overflow.
  const likeliest = faults.reduce((most, { logOdds }) => Math.max(most, logOdds), 0);
  const share = (logOdds: number) => Math.exp(logOdds - likeliest);
  const all = share(0) + faults.reduce((sum, { logOdds }) => sum + share(logOdds), 0);
  const soundProbability = share(0) / all;
  const isSound = tail >= 1 - gate && soundProbability >= leastBelief;
  return {
    verdict: isSound ? "believed" : "doubted",
    chiSquare,
    degreesOfFreedom,
    tail,
    soundProbability,
    explanations: faults
      .map(({ fault, logOdds }) => ({ fault, probability: share(logOdds) / all }))
      .filter(({ probability }) => probability >= LEAST_TOLD * (1 - soundProbability))
      .sort((a, b) => b.probability - a.probability),
    fit,
    readingSd: pot.readingSd,
  };
}

/** What the noise expected beforehand is worth, in independent bands; of a card's bands, half count (third differences). */
const PRIOR_BANDS = 6;
const CARD_BANDS_SHARE = 0.5;
/** An instrument noisier than this many times what is expected has not read a card. */
const MOST_NOISE = 4;

/**
 * The pot with the noise that its cards show: median size of the third differences of what a first fit leaves,
 * ÷ 0.6745√20, which no smooth misfit and no single spike moves; pooled with the noise expected beforehand.
 */
function withNoise(pot: PotModel, belief: Belief, cards: readonly CardModel[]): PotModel {
  const { residual } = fitPot(pot, belief, cards);
  const bands = pot.coefficients.size / pot.surfaces.length;
  const sizes: number[] = [];
  residual.forEach((value, i) => {
    if (i % bands < 3) return;
    sizes.push(Math.abs(value - 3 * residual[i - 1] + 3 * residual[i - 2] - residual[i - 3]));
  });
  sizes.sort((a, b) => a - b);
  const found = Math.min(MOST_NOISE, sizes[Math.floor(sizes.length / 2)] / (0.6745 * Math.sqrt(20)));
  const counted = CARD_BANDS_SHARE * residual.length;
  const variance = (PRIOR_BANDS + counted * found * found) / (PRIOR_BANDS + counted);
  return { ...pot, readingSd: pot.readingSd * Math.sqrt(variance) };
}
