import { HIDING_DEFAULTS, hidingThickness } from "../optics/hiding.js";
import { measuredReflectance } from "../surface/saunderson.js";
import { createEvaluation, evaluate } from "./evaluate.js";
import type { ForwardModel } from "./forwardModel.js";

/**
 * Film build (in grams of mix per area) that the mix `after` needs for a contrast ratio of 0.98, ÷ that of `before`,
 * at the first geometry and under the first light. The scale of relative K and S cancels in the ratio. NaN when
 * neither mix ever hides.
 */
export function hidingChange(
  model: ForwardModel,
  before: ArrayLike<number>,
  after: ArrayLike<number>,
): number {
  const bands = model.set.grid.count;
  const surface = model.surfaces[0];
  const build = (grams: ArrayLike<number>): number => {
    const mix = createEvaluation(model);
    evaluate(model, grams, mix);
    const total = Array.prototype.reduce.call(
      grams,
      (sum, amount) => Number(sum) + Number(amount),
      0,
    ) as number;
    const perGram = (values: Float64Array) => values.subarray(0, bands).map((value) => value / total);
    return hidingThickness({
      k: perGram(mix.k),
      s: perGram(mix.s),
      luminous: model.lights[0].tristimulus.y,
      black: HIDING_DEFAULTS.black,
      white: HIDING_DEFAULTS.white,
      observe: (internal) => measuredReflectance(internal, surface),
    });
  };
  return build(after) / build(before);
}
