import { InputError } from "../core/InputError.js";
import { createGradient, differentiate, type Gradient } from "./differentiate.js";
import { createEvaluation, type Evaluation, evaluate } from "./evaluate.js";
import type { ForwardModel } from "./forwardModel.js";

/** A pot looked at, with its slopes by the grams of every toner. Throws `no-pigment` where some band neither absorbs nor scatters. */
export function potSlopes(
  model: ForwardModel,
  grams: Float64Array,
): { readonly at: Evaluation; readonly slopes: Gradient } {
  const at = createEvaluation(model);
  evaluate(model, grams, at);
  if (at.reflectance.some(Number.isNaN)) {
    throw new InputError("no-pigment", "pot", "nothing in the pot absorbs or scatters light at some band");
  }
  const slopes = createGradient(model);
  differentiate(model, at, slopes, Array.from(grams.keys()));
  return { at, slopes };
}
