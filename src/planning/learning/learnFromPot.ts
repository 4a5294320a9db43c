import { type Belief, beliefOf } from "../../belief/belief.js";
import { type CanBelief, canPosterior } from "../../belief/canPosterior.js";
import { checkScatters } from "../../belief/checkScatters.js";
import { judge } from "../../belief/judge.js";
import type { Prior, ReadCard } from "../../belief/prior.js";
import { sdsInPot } from "../../belief/sdsInPot.js";
import type { Viewing } from "../../colorimetry/viewing.js";
import type { Warning } from "../../core/warning.js";
import { createForwardModel } from "../../forward/forwardModel.js";
import { seenAtOfCard } from "../../problem/geometriesSeen.js";
import { readCard } from "../../problem/readCard.js";
import { createWeights } from "../../problem/seenColours.js";
import { createScene } from "../../scene/createScene.js";
import { atFullStrength } from "../../toners/atFullStrength.js";
import { gramsInOrder } from "../../toners/pot.js";
import { scatteringShares } from "../../toners/scatteringShares.js";
import type { TonerSet } from "../../toners/tonerSet.js";
import type { CardVerdict } from "./learning.js";
import type { CheckedPotCards } from "./learningJob.js";

/** What the cards of one pot say. */
export interface PotLearning {
  readonly belief: CanBelief;
  /** Shares of its scattering that the toners of the pot of the last believed card have, where one was. */
  readonly shares?: Float64Array;
  readonly verdicts: readonly CardVerdict[];
  /** Everything that the believed cards show, where there is one. */
  readonly ofCards?: Belief;
  readonly warnings: readonly Warning[];
}

/** A card counts as having taught a toner if it made its sd smaller by this share (our choice). */
const TAUGHT = 0.1;

/** Light under which the likeness of paints is judged; learning needs a light for nothing else. */
const LIKENESS_VIEWING = Object.freeze<Viewing>({ observer: "1964-10", illuminants: [{ name: "D65" }] });

/** Judges the cards of a pot in turn and believes those together that pass. */
export function learnFromPot(
  pot: CheckedPotCards,
  path: string,
  set: TonerSet,
  before: CanBelief,
  known: Pick<Prior, "sizes" | "work">,
): PotLearning {
  const surfaces = pot.cards.map((card, c) => ({ ...card, path: `${path}.cards[${c}].readings` }));
  const scene = createScene(
    set,
    surfaces.filter(({ readings }) => readings.length > 0),
    (geometry) => surfaces.every((surface) => seenAtOfCard(surface)?.includes(geometry)),
    `${path}.cards`,
  );
  const { toners } = scene.toners;
  const model = createForwardModel(atFullStrength(scene.toners), LIKENESS_VIEWING, scene.geometries);
  const prior = { model, ...before, ...known };
  const grams = pot.cards.map((card) => gramsInOrder(card.pot, toners));
  const believed: ReadCard[] = [];
  const verdicts: CardVerdict[] = [];
  const weightsOf = createWeights(model);
  let learnt: CanBelief = before;
  let shares: Float64Array | undefined;
  let ofCards: Belief | undefined;
  pot.cards.forEach(({ name }, c) => {
    checkScatters(model, grams[c], `${path}.cards[${c}].pot`);
    const card = readCard(surfaces[c], grams[c], { model, aligned: scene.aligned, weightsOf });
    const others = pot.cards
      .slice(0, c)
      .map((other, o) => ({ name: other.name, grams: grams[o] }))
      .filter((other) => other.grams.some((amount, j) => amount !== grams[c][j]));
    const poured = c === 0 ? grams[0] : grams[c].map((amount, j) => amount - grams[c - 1][j]);
    const belief = beliefOf(prior, [...believed, card]);
    const { logOdds: _, ...judgement } = judge(belief, { poured, others });
    const now = scatteringShares(model.coefficients, grams[c]);
    const earlier = learnt;
    const sdBefore = sdsInPot(earlier, now);
    if (judgement.verdict === "believed") {
      believed.push(card);
      learnt = canPosterior(belief);
      ofCards = belief;
      shares = now;
    }
    const sd = sdsInPot(learnt, now);
    const beliefs = toners
      .map(({ id }, j) => ({
        toner: id,
        strengthBefore: Math.exp(earlier.logStrength[j]),
        sdBefore: sdBefore[j],
        strength: Math.exp(learnt.logStrength[j]),
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
  return {
    belief: learnt,
    verdicts,
    warnings: scene.warnings,
    ...(shares && { shares }),
    ...(ofCards && { ofCards }),
  };
}
