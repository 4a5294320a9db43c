import type { Belief } from "./belief.js";
import { filmResponse, filmSlopes } from "./filmResponse.js";
import { variances } from "./variances.js";

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
  return { reflectance, sd: variances(posterior, by, reflectance.length).map(Math.sqrt) };
}
