import { gauss, legendre, radau } from "./quadrature.js";
import type { Square } from "./square.js";

/** Directions in which light travels inside a film, by the cosine to its normal, with weights that add up to 1. */
export interface Streams {
  readonly cosines: readonly number[];
  readonly weights: readonly number[];
  /** Share of a stream that the boundary with air sends back inside: Fresnel, all of it beyond the critical angle. */
  readonly mirrored: readonly number[];
  /** Reflectance of the boundary at normal incidence. */
  readonly k1: number;
}

/** How a particle sends light on: along the same hemisphere (`on`) and back, from stream j (column) to i (row). */
export interface Scattering {
  /** What delta scaling leaves of the scattering coefficient. */
  readonly kept: number;
  readonly on: Square;
  readonly back: Square;
}

/**
 * Half of the streams are a Gauss rule below the critical cosine of a boundary of index `index`, half a Radau rule
 * above it with the normal itself among them; a boundary of index 1 has one Gauss–Radau rule over all.
 */
export function createStreams(count: number, index: number): Streams {
  const critical = Math.sqrt(1 - 1 / index ** 2);
  const half = count / 2;
  const rules = index === 1 ? [radau(count, 0, 1)] : [gauss(half, 0, critical), radau(half, critical, 1)];
  const cosines = rules.flatMap(({ nodes }) => nodes);
  return {
    cosines,
    weights: rules.flatMap(({ weights }) => weights),
    mirrored: cosines.map((cosine) => fresnelFromInside(cosine, index)),
    k1: ((index - 1) / (index + 1)) ** 2,
  };
}

/** Unpolarised Fresnel reflectance met from the side of index n towards index 1. */
function fresnelFromInside(cosine: number, n: number): number {
  const sineOutside = n * Math.sqrt(1 - cosine * cosine);
  if (sineOutside >= 1) return 1;
  const outside = Math.sqrt(1 - sineOutside * sineOutside);
  const perpendicular = (n * cosine - outside) / (n * cosine + outside);
  const parallel = (cosine - n * outside) / (cosine + n * outside);
  return (perpendicular ** 2 + parallel ** 2) / 2;
}

/**
 * Henyey & Greenstein's phase function of asymmetry g, averaged over azimuth, as its Legendre series; what the
 * streams cannot resolve of the forward peak counts as not scattered (delta-M: Wiscombe 1977, from memory).
 * The series stops where the rules still integrate it exactly, so no light is lost or won.
 */
export function henyeyGreenstein(streams: Streams, g: number): Scattering {
  const { cosines } = streams;
  const terms = cosines.length;
  const peak = g ** terms;
  const p = cosines.map((cosine) => legendre(terms - 1, cosine));
  const moments = Array.from({ length: terms }, (_, l) => ((2 * l + 1) * (g ** l - peak)) / (1 - peak));
  const series = (i: number, j: number, sign: number) =>
    moments.reduce((sum, moment, l) => sum + sign ** l * moment * p[i][l] * p[j][l], 0);
  const matrix = (sign: number) =>
    Float64Array.from({ length: terms * terms }, (_, at) => series(Math.floor(at / terms), at % terms, sign));
  return { kept: 1 - peak, on: matrix(1), back: matrix(-1) };
}
