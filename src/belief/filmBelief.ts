import type { Belief } from "./belief.js";
import { filmResponse, filmSlopes } from "./filmResponse.js";
import { shownBy } from "./shownBy.js";

/** What a belief holds of the reflectance of a film that it knows, and one sd of it, band by band over all geometries. */
export interface FilmBelief {
  readonly reflectance: Float64Array;
  readonly sd: Float64Array;
}

/** The likeliest reflectance of film `place` of the scope (cards first, then panels) and its sd √diag(A·Aᵀ − B·Bᵀ). */
export function filmBelief({ scope, posterior }: Belief, place: number): FilmBelief {
  const { model, strengths, unknowns, films } = scope;
  const response = filmResponse(model, strengths, { unknowns, u: posterior.u }, films[place]);
  const { reflectance } = response;
  const by = filmSlopes(response, unknowns, films[place]);
  const shown = shownBy(posterior, by, reflectance.length);
  const variance = new Float64Array(reflectance.length);
  by.forEach((value, i) => {
    variance[i % variance.length] += value * value;
  });
  shown.forEach((value, i) => {
    variance[i % variance.length] -= value * value;
  });
  return { reflectance, sd: variance.map((value) => Math.sqrt(Math.max(0, value))) };
}
