import type { Random } from "../../numeric/random.js";
import type { Problem } from "../problem.js";
import type { Doubts } from "./doubts.js";
import { drawColours } from "./drawColours.js";
import { type LabSpread, labSpread, totalSpread } from "./labSpread.js";
import { nextCard, type SprayedCard, sprayedCard } from "./nextCard.js";
import { type StrengthBelief, strengthBelief } from "./strengthBelief.js";

/** The next card after some additions: its mean colours, and their spread by cause. */
export interface CardSpread {
  readonly mean: Float64Array;
  readonly spread: LabSpread;
}

/** What the card of a problem tells of its cans, and with that what any additions would lead to. */
export interface CardWorlds {
  readonly sprayed: SprayedCard;
  readonly belief: StrengthBelief;
  after(additions: Float64Array): CardSpread;
}

/** `mostPoured`: the additions that will be asked about, or larger ones of the same toners. */
export function cardWorlds(problem: Problem, mostPoured: Float64Array, doubts: Doubts): CardWorlds {
  const { pot, step } = problem.bench;
  const sprayed = sprayedCard(problem);
  const used = Array.from(pot.keys()).filter((j) => pot[j] > 0 || mostPoured[j] > 0);
  const belief = strengthBelief(sprayed.bare, { ...sprayed, used }, doubts);
  return {
    sprayed,
    belief,
    after: (additions) => ({
      mean: nextCard(sprayed, { lnStrength: belief.mean }, additions).lab,
      spread: labSpread(sprayed, belief, { additions, step }, doubts),
    }),
  };
}

/** Cards drawn, all doubts together. */
export function drawCards(
  { mean, spread }: CardSpread,
  count: number,
  random: Random,
): readonly Float64Array[] {
  return drawColours({ mean, covariance: totalSpread(spread) }, count, random);
}
