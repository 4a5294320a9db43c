import { ANCHOR_DEFAULTS, type AnchorOptions, anchorToCard } from "../../prediction/anchor.js";
import { createEvaluation, type Evaluation, evaluate } from "../../prediction/evaluate.js";
import type { ForwardModel } from "../../prediction/forwardModel.js";
import type { Problem } from "../problem.js";

/** The model before it was tied to a card, what the card was sprayed from, and what it read. */
export interface SprayedCard {
  readonly bare: ForwardModel;
  readonly pot: Float64Array;
  readonly card: Float64Array;
}

/** Takes a problem apart again: tied to its card, the model returns that card at the pot. */
export function sprayedCard({ model, bench: { pot } }: Problem): SprayedCard {
  const at = createEvaluation(model);
  evaluate(model, pot, at);
  const { size } = model.coefficients;
  const anchor = {
    scale: new Float64Array(size).fill(1),
    ghost: new Float64Array(size),
    shift: new Float64Array(size),
  };
  return { bare: { ...model, anchor }, pot, card: at.reflectance };
}

/** One way the world may be: the cans e^θ times as strong, the card explained in another way. */
export interface World {
  readonly lnStrength: Float64Array;
  readonly tie?: AnchorOptions;
}

/** The model of one such world. It gave the same card as all others, so it is tied to the card anew. */
export function modelIn(
  { bare, pot, card }: SprayedCard,
  { lnStrength, tie = ANCHOR_DEFAULTS }: World,
): ForwardModel {
  const { toners, size, k, s } = bare.coefficients;
  const stronger = (values: Float64Array) =>
    values.map((value, i) => value * Math.exp(lnStrength[Math.floor(i / size)]));
  const coefficients = { toners, size, k: stronger(k), s: stronger(s) };
  return anchorToCard({ ...bare, coefficients }, pot, card, tie);
}

/** The card sprayed after `additions` in one such world. */
export function nextCard(sprayed: SprayedCard, world: World, additions: ArrayLike<number>): Evaluation {
  const model = modelIn(sprayed, world);
  const at = createEvaluation(model);
  evaluate(
    model,
    sprayed.pot.map((grams, j) => grams + additions[j]),
    at,
  );
  return at;
}
