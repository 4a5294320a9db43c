import type { CanBelief } from "../../belief/canPosterior.js";
import { learnRepeats } from "../../belief/learnRepeats.js";
import { sdsInPot } from "../../belief/sdsInPot.js";
import { taughtSizes } from "../../belief/taughtSizes.js";
import type { Warning } from "../../core/warning.js";
import { WORK_DEFAULTS, type WorkOptions, workFor, workWarnings } from "../../core/workOptions.js";
import { beliefForPot, type CarriedBelief, carriedBelief, learntFrom } from "./carriedBelief.js";
import { carryCurves } from "./carryCurves.js";
import { learnFromPot } from "./learnFromPot.js";
import type { CardVerdict, Learning } from "./learning.js";
import { checkLearningJob, type LearningJob } from "./learningJob.js";

/** Some seconds: a pot takes a hundredth of it. */
const LEARNING_WORK: Required<WorkOptions> = Object.freeze({ ...WORK_DEFAULTS, maxWork: 2e9 });

/**
 * How strong the cans in use are, from cards of pots as weighed. Each card is first judged against what the cards
 * before it lead to expect; one outside the χ² gate, or that a single fault explains better, teaches nothing and comes
 * with the likeliest explanations. The others of a pot are fitted together, so that what the model misses of the pot
 * drops out of the differences between them. Between pots strengths age, and a new can starts anew. A card that the work
 * did not suffice for stays open and teaches nothing.
 * Throws InputError with code and place. Sources: Kalman 1960; Kass & Raftery 1995.
 */
export function learnStrengths(job: LearningJob, limits: WorkOptions = {}): Learning {
  const { toners: given, pots, options } = checkLearningJob(job);
  const work = workFor(limits, LEARNING_WORK);
  let toners = given;
  const start = carriedBelief(toners, options);
  let belief: CarriedBelief = start;
  let shares: Float64Array | undefined;
  const cards: CardVerdict[] = [];
  const warnings: Warning[] = [];
  const cut: string[] = [];
  pots.forEach((pot, p) => {
    const before = beliefForPot(belief, toners, pot, options);
    const known = {
      sizes: { ...options, ...taughtSizes(belief) },
      work: work.share(1 / (pots.length - p)),
    };
    const found = learnFromPot(pot, `pots[${p}]`, toners, before, known);
    belief = { ...before, ...found.belief };
    shares = found.shares ?? shares;
    if (found.ofCards) {
      toners = carryCurves(toners, found.ofCards);
      belief = { ...belief, repeats: learnRepeats(found.ofCards, belief) };
    }
    cards.push(...found.verdicts);
    warnings.push(...found.warnings);
    if (known.work.isSpent()) cut.push(pot.name);
  });
  const sd = (of: CanBelief, j: number) => Math.sqrt(of.covariance[j * toners.toners.length + j]);
  const inPot = shares && sdsInPot(belief, shares);
  return {
    format: "masstone/learning",
    version: 1,
    strengths: toners.toners.map(({ id }, j) => ({
      toner: id,
      ...(Object.hasOwn(belief.cans, id) && { can: belief.cans[id] }),
      strengthBefore: Math.exp(start.logStrength[j]),
      sdBefore: sd(start, j),
      strength: Math.exp(belief.logStrength[j]),
      sd: sd(belief, j),
      ...(inPot && { sdInPot: inPot[j] }),
    })),
    cards,
    toners: inPot
      ? {
          ...toners,
          toners: toners.toners.map((toner, j) => ({
            ...toner,
            strength: Math.exp(belief.logStrength[j]),
            strengthSd: inPot[j],
          })),
          learnt: learntFrom(belief, toners),
        }
      : toners,
    warnings: [
      ...warnings,
      ...workWarnings(cut.map((name) => `what the cards of ${name} say, and which slip may explain them`)),
    ],
  };
}
