import { sum } from "../../core/sum.js";
import type { ForwardModel } from "../../forward/forwardModel.js";
import type { BeliefSizes } from "../beliefSizes.js";
import type { Film } from "../film.js";
import type { Unknown } from "../unknown.js";

/** Flake that white tilts: x rises by about this much times the share of white (a world of other physics has 1.5). */
const WHITE_TILT_SD = 1;

const shapeOf = ({ coefficients: { size } }: ForwardModel) => new Float64Array(size).fill(1);

const tilting = (model: ForwardModel, share: (film: Film) => number, isOfGrams = false): Unknown => ({
  owner: "film",
  effects: [{ field: "flakeTilt", toner: -1, from: 0, shape: shapeOf(model), isOfGrams, share }],
});

/** Whether the set has toners whose orientation is known, so that spraying can be told. */
export const hasOrientation = ({ orientation }: ForwardModel, used: readonly number[]) =>
  used.some((j) => orientation[j]);

/**
 * Share of ρ to which two films with flakes of known orientation are alike, each as it was sprayed: their lie changes colour
 * in more ways than one tilt. Found in a world of other physics: without it no paint explains two cards of unlike tilts
 * (docs/evidence.md).
 */
const SPRAYED_ALIKE = 0.9;

export const sprayedAlike = (model: ForwardModel, used: readonly number[]): number =>
  hasOrientation(model, used) ? SPRAYED_ALIKE : 1;

/**
 * How the flakes of `cards` read cards lie, as ln width of their tilts against the ladder's: each as it was sprayed, on
 * purpose or not, a film after the last one as that; and what white in the pot does to them. Nothing for pots without a
 * toner whose orientation is known.
 */
export function sprayUnknowns(
  model: ForwardModel,
  { cards, used }: { readonly cards: number; readonly used: readonly number[] },
  { spraySd }: BeliefSizes,
): readonly Unknown[] {
  if (!hasOrientation(model, used)) return [];
  const { toners } = model.set;
  const white = [...toners.keys()].filter((j) => toners[j].role === "white");
  const shareOfWhite = ({ grams }: Film) => {
    const total = sum(grams);
    return white.reduce((sum, j) => sum + grams[j], 0) / total;
  };
  const isOf = (card: number, { place }: Film) => place === card || (card === cards - 1 && place > card);
  return [
    ...(white.length > 0 ? [tilting(model, (film) => WHITE_TILT_SD * shareOfWhite(film), true)] : []),
    ...(spraySd > 0
      ? Array.from({ length: cards }, (_, card) => tilting(model, (film) => (isOf(card, film) ? spraySd : 0)))
      : []),
  ];
}

/** Unknown of the next film: how far its tilt is off the last one's where the spraying was meant to be the same. */
export function sprayRepeatUnknowns(
  model: ForwardModel,
  used: readonly number[],
  { sprayRepeatSd }: BeliefSizes,
): readonly Unknown[] {
  return hasOrientation(model, used) && sprayRepeatSd > 0 ? [tilting(model, () => sprayRepeatSd)] : [];
}
