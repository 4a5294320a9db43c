import type { ReadCard } from "../belief/prior.js";
import type { CheckedCard } from "../prediction/card.js";
import { createEvaluation, evaluate } from "../prediction/evaluate.js";
import type { ForwardModel } from "../prediction/forwardModel.js";
import type { ReadSurface, Scene } from "../scene/createScene.js";
import { createWeights, seenColours } from "./seenColours.js";

/** A card as it was read; of one without a spectrum what its pot is expected to read. */
export function readCard(
  card: Pick<CheckedCard, "colours"> & ReadSurface,
  grams: Float64Array,
  { model, aligned }: { readonly model: ForwardModel; readonly aligned: Scene["aligned"] },
): ReadCard {
  const colours = seenColours(model, createWeights(model), card.colours);
  if (card.readings.length > 0) return { grams, reflectance: aligned(card), colours };
  const expected = createEvaluation(model);
  evaluate(model, grams, expected);
  const reflectance = Float64Array.from(expected.spectra.flatMap((one) => [...one]));
  return { grams, reflectance, isExpected: true, colours };
}
