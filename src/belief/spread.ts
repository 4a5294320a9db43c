import { solveLower } from "../numeric/triangularSolve.js";
import type { Belief } from "./belief.js";
import { addRowSlopes, coloursOf } from "./colourSlopes.js";
import { filmResponse } from "./filmResponse.js";
import type { Unknown } from "./unknown.js";
import { filmUnknowns } from "./unknowns/films.js";
import { paintUnknowns } from "./unknowns/paints.js";
import { pourUnknowns } from "./unknowns/pours.js";
import { tonerUnknowns } from "./unknowns/toners.js";

/** Colours of a card that may be sprayed next, laid out like an evaluation's `lab`, with their covariance, row-major. */
export interface ColourSpread {
  readonly lab: Float64Array;
  readonly covariance: Float64Array;
}

/**
 * What the next card of pot + additions will read: the mean by the likeliest world, the covariance A·Aᵀ − B·Bᵀ with A
 * the slopes of its colours by every unknown, B = A·Jᵀ·L⁻ᵀ, and with what is its own: spraying, reading, pours.
 */
export function spread(belief: Belief, additions: Float64Array): ColourSpread {
  const { prior, scope, posterior, cards } = belief;
  const { model, sizes } = prior;
  const { size } = model.coefficients;
  const last = cards[cards.length - 1].grams;
  const film = belief.nextFilm(last.map((grams, j) => grams + additions[j]));
  const seen = filmResponse(model, scope.strengths, { unknowns: scope.unknowns, u: posterior.u }, film);
  const others = [...additions.keys()].filter((j) => additions[j] > 0 && !belief.used.includes(j));
  const fresh: readonly Unknown[] = [
    ...tonerUnknowns(model, others, sizes),
    ...paintUnknowns(model, { places: [film.place], used: [...belief.used, ...others] }, sizes),
    ...filmUnknowns(model, { place: film.place, reflectance: seen.reflectance }, sizes),
    ...pourUnknowns({ place: film.place, poured: additions, size }, sizes),
  ];
  const { lab, byReflectance } = coloursOf(model, seen.reflectance);
  const count = lab.length;
  const by = (unknowns: readonly Unknown[]) => {
    const out = new Float64Array(unknowns.length * count);
    addRowSlopes(byReflectance, seen, { unknowns, film }, out);
    return out;
  };
  const known = by(scope.unknowns);
  const noise = Float64Array.from(
    { length: size * count },
    (_, i) => sizes.readingSd * byReflectance[(i % count) * size + Math.floor(i / count)],
  );
  const covariance = new Float64Array(count * count);
  for (const [rows, sign] of [
    [known, 1],
    [by(fresh), 1],
    [noise, 1],
    [shownBy(posterior, known, count), -1],
  ] as const) {
    for (let x = 0; x < rows.length; x += count) {
      for (let i = 0; i < count; i++) {
        for (let k = 0; k < count; k++) covariance[i * count + k] += sign * rows[x + i] * rows[x + k];
      }
    }
  }
  return { lab, covariance };
}

/** L⁻¹·J·Aᵀ, row by row of what was seen: what the cards take off the covariance A·Aᵀ; A by unknown, `count` numbers each. */
export function shownBy(
  { slopes, rows, factor, u }: Belief["posterior"],
  by: Float64Array,
  count: number,
): Float64Array {
  const shown = new Float64Array(rows * count);
  for (let x = 0; x < u.length; x++) {
    for (let r = 0; r < rows; r++) {
      const slope = slopes[x * rows + r];
      if (slope === 0) continue;
      for (let i = 0; i < count; i++) shown[r * count + i] += slope * by[x * count + i];
    }
  }
  solveLower(factor, 0, rows, shown, 0, count);
  return shown;
}
