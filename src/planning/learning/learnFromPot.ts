import { resampledWarnings } from "../../prediction/readingWarnings.js";
import type { Warning } from "../../prediction/warning.js";
import { scatteringShares } from "../../toners/scatteringShares.js";
import type { TonerSet } from "../../toners/tonerSet.js";
import { judgeCard } from "./judgeCard.js";
import type { CardVerdict } from "./learning.js";
import type { PotCards } from "./learningJob.js";
import type { LearningOptions } from "./learningOptions.js";
import type { Belief, CardModel } from "./potModel.js";
import { preparePot } from "./preparePot.js";
import { sdsInPot } from "./sdsInPot.js";

/** What the cards of one pot say. */
export interface PotLearning {
  readonly belief: Belief;
  /** Shares of its scattering that the toners of the pot of the last believed card have, where one was. */
  readonly shares?: Float64Array;
  readonly verdicts: readonly CardVerdict[];
  readonly warnings: readonly Warning[];
}

/** A toner was taught of by a card that made its sd smaller by this share (our choice). */
const TAUGHT = 0.1;

/** Judges the cards of a pot in turn and fits those that are believed together. */
export function learnFromPot(
  pot: PotCards,
  path: string,
  toners: TonerSet,
  prior: Belief,
  options: LearningOptions,
): PotLearning {
  const { geometries, grid, grams, model, card: cardOf } = preparePot(pot, path, toners, options);
  const believed: CardModel[] = [];
  const verdicts: CardVerdict[] = [];
  let belief = prior;
  let shares: Float64Array | undefined;
  pot.cards.forEach(({ name }, c) => {
    const card = cardOf(c, believed.at(-1)?.grams);
    const others = pot.cards
      .slice(0, c)
      .map((other, o) => ({ name: other.name, grams: grams[o] }))
      .filter((other) => other.grams.some((amount, j) => amount !== grams[c][j]));
    const poured = c === 0 ? grams[0] : grams[c].map((amount, j) => amount - grams[c - 1][j]);
    const sources = { toners: toners.toners, geometries, grid, card, poured, others };
    const { fit, readingSd: _, ...judgement } = judgeCard(model, prior, { believed, sources }, options);
    const isBelieved = judgement.verdict === "believed";
    const now = scatteringShares(model.coefficients, grams[c]);
    const before = belief;
    const sdBefore = sdsInPot(before, now);
    if (isBelieved) {
      believed.push(card);
      belief = fit;
      shares = now;
    }
    const sd = sdsInPot(belief, now);
    const beliefs = toners.toners
      .map(({ id }, j) => ({
        toner: id,
        strengthBefore: Math.exp(before.mean[j]),
        sdBefore: sdBefore[j],
        strength: Math.exp(belief.mean[j]),
        sd: sd[j],
      }))
      .filter((_, j) => grams[c][j] > 0);
    verdicts.push({
      pot: pot.name,
      card: name,
      ...judgement,
      beliefs,
      taught: beliefs
        .filter((one) => one.sd < (1 - TAUGHT) * one.sdBefore)
        .map((one) => ({ toner: one.toner, sdBefore: one.sdBefore, sd: one.sd })),
    });
  });
  const warnings = pot.cards.flatMap(({ readings }, c) =>
    resampledWarnings(
      readings.filter(({ geometry }) => geometries.includes(geometry)),
      grid,
      `${path}.cards[${c}].readings`,
    ),
  );
  return { belief, verdicts, warnings, ...(shares && { shares }) };
}
