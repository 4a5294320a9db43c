import { whiten } from "../numeric/linear/borderedBlocks.js";
import { dot } from "../numeric/linear/dot.js";
import type { Belief } from "./belief.js";
import { createFilmReader } from "./createFilmReader.js";
import type { FaultModel } from "./faultModels.js";
import { filmResponse, filmSlopes } from "./filmResponse.js";
import { observationsOf } from "./observationsOf.js";

/** ½ ln det of what a smooth fault of any shape adds, at least (design value). */
const PRICE_OF_MANY = 20;

/** A guess of any fault, and the steps of work that one takes. */
export interface Guess {
  readonly logOdds: (fault: FaultModel) => number;
  readonly steps: number;
}

/** Steps of work of one band: a root, and a handful of toners. */
const STEPS_OF_BAND = 40;

/**
 * What the evidence of a fault in the last card over that of none is likely to be, in ln, without a fit: around the sound
 * world, with its covariance G of what was seen. Other grams move what was expected by d: ½(χ² − (y − d)ᵀG⁻¹(y − d));
 * one more unknown of slope j gains ½(jᵀG⁻¹y)²/(1 + jᵀG⁻¹j) − ½ ln(1 + jᵀG⁻¹j). Many unknowns
 * at once may take away all of χ², at a price.
 */
export function createGuess(belief: Belief): Guess {
  const { prior, cards, scope, posterior } = belief;
  const { model, strengths, unknowns, films } = scope;
  const { u, slopes, rows, factor, residual } = posterior;
  const last = cards.length - 1;
  const film = films[last];
  const world = { unknowns, u };
  const sound = filmResponse(model, strengths, world, film);
  const readOf = createFilmReader(scope, u, film);
  const seen = residual.slice();
  u.forEach((value, x) => {
    if (value === 0) return;
    for (let r = 0; r < rows; r++) seen[r] += slopes[x * rows + r] * value;
  });
  whiten(factor, seen, 1);
  let row = 0;
  const sights = observationsOf(belief, model, prior.sizes.readingSd).flatMap(
    ({ films, own, rows: count, look }) => {
      const from = row;
      row += count;
      if (films[0] !== last) return [];
      const values = own.map((unknown) => u[unknowns.indexOf(unknown)]);
      return [{ from, sight: look([sound.reflectance], values) }];
    },
  );
  /** A change of the last card's rows alone, whitened. */
  const whitened = (change: Float64Array): Float64Array => {
    const moved = new Float64Array(rows);
    for (const { from, sight } of sights) sight.carry(0, change, { from: 0, to: change.length }, moved, from);
    whiten(factor, moved, 1);
    return moved;
  };
  const logOdds = ({ card, unknowns: further }: FaultModel): number => {
    if (further.length > 1) return dot(seen, seen) / 2 - PRICE_OF_MANY;
    if (further.length === 1) {
      const by = filmSlopes(sound, further, film);
      const column = whitened(by);
      const spread = 1 + dot(column, column);
      return dot(column, seen) ** 2 / spread / 2 - Math.log(spread) / 2;
    }
    if (card.grams === cards[cards.length - 1].grams) return 0;
    const moved = whitened(readOf(card.grams).map((value, b) => value - sound.reflectance[b]));
    return dot(moved, seen) - dot(moved, moved) / 2;
  };
  return { logOdds, steps: factor.stepsToWhiten + STEPS_OF_BAND * sound.reflectance.length };
}
