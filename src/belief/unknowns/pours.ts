import type { BeliefSizes } from "../beliefSizes.js";
import type { Film } from "../film.js";
import type { Unknown } from "../unknown.js";

/** The true grams of a pour are at least this share of what the scale showed. */
const LEAST_LEFT = 0.1;

/**
 * What the hand and the scale were off in each pour into the pot before the film at `place`; all later films hold it
 * too. `poured` are grams by toner, ≤ 0 where nothing was poured.
 */
export function pourUnknowns(
  { place, poured, size }: { readonly place: number; readonly poured: Float64Array; readonly size: number },
  { pourSd, pourShareSd }: BeliefSizes,
): readonly Unknown[] {
  const shape = new Float64Array(size).fill(1);
  return [...poured.keys()].flatMap((toner): readonly Unknown[] => {
    if (!(poured[toner] > 0)) return [];
    const sd = Math.hypot(pourSd, pourShareSd * poured[toner]);
    if (sd === 0) return [];
    const share = (film: Film) => {
      const grams = film.grams[toner];
      return film.place < place || !(grams > 0) ? 0 : Math.min(sd / grams, 1 - LEAST_LEFT);
    };
    return [
      { owner: "pour", effects: [{ field: "strength", toner, from: 0, shape, isOfGrams: true, share }] },
    ];
  });
}
