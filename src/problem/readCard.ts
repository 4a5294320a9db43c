import type { ReadCard } from "../belief/prior.js";
import { createEvaluation, evaluate } from "../forward/evaluate.js";
import type { ForwardModel } from "../forward/forwardModel.js";
import type { CheckedCard } from "../scene/card.js";
import type { ReadSurface, Scene } from "../scene/createScene.js";
import { seenColours, type WeightsOf } from "./seenColours.js";

/** A card as it was read; of one without a spectrum what its pot is expected to read. */
export function readCard(
  card: Pick<CheckedCard, "colours"> & ReadSurface,
  grams: Float64Array,
  {
    model,
    aligned,
    weightsOf,
  }: { readonly model: ForwardModel; readonly aligned: Scene["aligned"]; readonly weightsOf: WeightsOf },
): ReadCard {
  const colours = seenColours(model, weightsOf, card.colours);
  if (card.readings.length > 0) return { grams, reflectance: aligned(card), colours };
  const expected = createEvaluation(model);
  evaluate(model, grams, expected);
  return { grams, reflectance: expected.reflectance, isExpected: true, colours };
}
