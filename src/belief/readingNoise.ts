import type { Belief } from "./belief.js";
import { strideOf } from "./observationsOf.js";

/**
 * Weight of the expected noise, in independent bands; half of a card's bands count, since third differences overlap.
 */
const PRIOR_BANDS = 6;
const CARD_BANDS_SHARE = 0.5;
/** Noise is held below this many times what is expected: beyond it the card was not read properly. */
const MOST_NOISE = 4;

/**
 * Noise of one band as the cards of a belief show it: median size of the third differences of what the fit leaves,
 * ÷ 0.6745√20, which no smooth misfit and no single spike moves; pooled with the noise expected beforehand, which
 * alone counts where not all that was seen are spectra.
 */
export function readingNoise({ posterior: { residual }, prior, cards }: Belief): number {
  const { model, sizes } = prior;
  if (cards.some(({ isExpected, colours = [] }) => isExpected || colours.length > 0)) return sizes.readingSd;
  const bands = Math.ceil(model.set.grid.count / strideOf(cards));
  const differences: number[] = [];
  residual.forEach((value, i) => {
    if (i % bands < 3) return;
    differences.push(Math.abs(value - 3 * residual[i - 1] + 3 * residual[i - 2] - residual[i - 3]));
  });
  differences.sort((a, b) => a - b);
  const median = differences[Math.floor(differences.length / 2)];
  const found = Math.min(MOST_NOISE, median / (0.6745 * Math.sqrt(20)));
  const counted = CARD_BANDS_SHARE * residual.length;
  const variance = (PRIOR_BANDS + counted * found * found) / (PRIOR_BANDS + counted);
  return sizes.readingSd * Math.sqrt(variance);
}
