import type { PanelPaint } from "../belief/inferPanels.js";
import { type FadePriors, fadePriorOf } from "../toners/fadePrior.js";
import type { Toner } from "../toners/toner.js";

/** A formula after the average fading of its toners, with the standard deviation of ln of what is left. */
export function fadedPaint(
  toners: readonly Toner[],
  grams: Float64Array,
  given: FadePriors = {},
): PanelPaint {
  const priors = toners.map((toner) => fadePriorOf(toner, given));
  return {
    grams: grams.map((amount, j) => amount * Math.exp(-priors[j].meanLoss)),
    tonerSds: grams.map((amount, j) => (amount > 0 ? priors[j].sdLoss : 0)),
  };
}
