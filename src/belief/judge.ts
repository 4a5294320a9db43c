import { chiSquareTail } from "../numeric/probability/chiSquareTail.js";
import { atReadingSd, type Belief, beliefOf } from "./belief.js";
import { createGuess } from "./createGuess.js";
import type { Explanation } from "./fault.js";
import { type FaultSources, faultModels, soundShare } from "./faultModels.js";
import { readingNoise } from "./readingNoise.js";

/** What is said of a card. */
export type CardVerdictWord = "believed" | "doubted" | "open";

/** Whether a card can come from its pot, and if not, why. */
export interface Judgement {
  /** `open`: the work allowed did not suffice to tell. */
  readonly verdict: CardVerdictWord;
  /** How far the card is from what was expected of it, and the share of sound cards that are further. */
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  readonly tail: number;
  /** How probable it is that nothing is wrong with the card and the pours before it. */
  readonly soundProbability: number;
  /** ln odds of the likeliest single fault against none; −∞ where none needed to be tried. */
  readonly logOdds: number;
  /** The likeliest first. */
  readonly explanations: readonly Explanation[];
}

/** Noise of one band against which a first card is judged: what the model misses of a paint is no fault. */
const GATE_SD = 0.003;
/**
 * A card that is sound with less than this probability is not believed: a first card where a single fault is likelier
 * than none, a later one, of which more is known, sooner. Chosen on simulated jobs, judged on others (docs/evidence.md).
 */
const LEAST_SOUND = Object.freeze({ first: 0.5, later: 0.8 });
/** A card is not believed if fewer than this share of sound cards lie further out, whatever explains it. */
export const LEAST_TAIL = 0.001;
/** Below this χ² no fault can be likelier than none: it gains at most half of χ². */
const SURELY_SOUND = 4;
/** Explanations less probable than this, among all, are left out. */
const LEAST_TOLD = 0.02;
/** A fault with guessed odds below this is not fitted; of a suspect card every fault is. */
const LEAST_GUESS = -5;
const SUSPECT_TAIL = 0.05;
/** Of very many toners the likeliest faults by guess are fitted; the others keep their guess (design value). */
const MOST_FITTED = 40;
const FAULT_EFFORT = Object.freeze({ steps: 6, halvings: 6 });

/**
 * Holds the last card of a belief against what those before it lead to expect: the evidence for every single fault against
 * none (Bayes factors by Laplace's approximation), times how often it happens. Doubted where one fault is likelier than
 * soundness, or χ² of the card is beyond 99.9 % of sound ones. With no work left faults keep their guess, or are not tried.
 * Source: Kass & Raftery 1995 for the comparison.
 */
export function judge(
  belief: Belief,
  { poured, others }: Pick<FaultSources, "poured" | "others">,
): Judgement {
  const { prior, cards } = belief;
  const { sizes } = prior;
  const believed = cards.slice(0, -1);
  const card = cards[cards.length - 1];
  // Earlier cards have shown what the model misses of the paint, so only the instrument's noise counts.
  const gateSd = believed.length === 0 ? Math.max(GATE_SD, sizes.readingSd) : readingNoise(belief);
  const gate = { ...prior, sizes: { ...sizes, readingSd: gateSd } };
  const before = believed.length === 0 ? 0 : beliefOf(gate, believed).posterior.chiSquare;
  const sound = atReadingSd(belief, gateSd);
  const chiSquare = Math.max(0, sound.posterior.chiSquare - before);
  const degreesOfFreedom = (card.isExpected ? 0 : card.reflectance.length) + 3 * (card.colours ?? []).length;
  const tail = chiSquareTail(chiSquare, degreesOfFreedom);
  const leastSound = believed.length === 0 ? LEAST_SOUND.first : LEAST_SOUND.later;
  const facts = { chiSquare, degreesOfFreedom, tail };
  const isSpent = () => prior.work?.isSpent() === true;
  if (!sound.posterior.converged && isSpent()) {
    const soundProbability = soundShare();
    return {
      verdict: "open",
      ...facts,
      soundProbability,
      logOdds: Number.NEGATIVE_INFINITY,
      explanations: [],
    };
  }
  if (chiSquare <= SURELY_SOUND) {
    return {
      verdict: "believed",
      ...facts,
      // Of a card that was not read only the prior is known.
      soundProbability: degreesOfFreedom === 0 ? soundShare() : 1,
      logOdds: Number.NEGATIVE_INFINITY,
      explanations: [],
    };
  }
  const sources = { model: prior.model, card, place: believed.length, poured, others };
  const guess = createGuess(sound);
  const isSuspect = tail < SUSPECT_TAIL;
  const guessed = faultModels(sources)
    .flatMap((model) => {
      if (isSpent()) return [];
      prior.work?.spend(guess.steps);
      const usual = Math.log(model.prior / soundShare());
      return [{ model, usual, odds: usual + guess.logOdds(model) }];
    })
    .sort((a, b) => b.odds - a.odds);
  const faults = guessed.map(({ model, usual, odds }, rank) => {
    const { card: faulty, unknowns, describe } = model;
    if (rank >= MOST_FITTED || (odds < LEAST_GUESS && !isSuspect) || isSpent()) {
      return { fault: describe(0), logOdds: odds };
    }
    const from = faulty === card ? sound : undefined;
    const { posterior } = beliefOf(gate, [...believed, faulty], { unknowns, from, effort: FAULT_EFFORT });
    const own = posterior.u[posterior.u.length - unknowns.length] ?? 0;
    const evidence = Number.isFinite(posterior.logEvidence)
      ? posterior.logEvidence
      : Number.NEGATIVE_INFINITY;
    return { fault: describe(own), logOdds: usual + evidence - sound.posterior.logEvidence };
  });
  // Relative to the likeliest, to avoid overflow.
  const most = faults.reduce((top, { logOdds }) => Math.max(top, logOdds), Number.NEGATIVE_INFINITY);
  const likeliest = Math.max(0, most);
  const share = (logOdds: number) => Math.exp(logOdds - likeliest);
  const all = share(0) + faults.reduce((sum, { logOdds }) => sum + share(logOdds), 0);
  const soundProbability = share(0) / all;
  return {
    verdict: soundProbability >= leastSound && tail >= LEAST_TAIL ? "believed" : "doubted",
    ...facts,
    soundProbability,
    logOdds: most,
    explanations: faults
      .map(({ fault, logOdds }) => ({ fault, probability: share(logOdds) / all }))
      .filter(({ probability }) => probability >= LEAST_TOLD * (1 - soundProbability))
      .sort((a, b) => b.probability - a.probability),
  };
}
