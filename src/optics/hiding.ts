import { checkNumber } from "../core/check.js";
import { findRoot } from "../numeric/scalar/root.js";
import { film, overBacking } from "./film.js";

/** A paint and the chart it is drawn down on. K and S per unit thickness and weights share one band order. */
export interface HidingChart {
  readonly k: ArrayLike<number>;
  readonly s: ArrayLike<number>;
  /** Weight of each band in the luminous reflectance Y (any common scale). */
  readonly luminous: ArrayLike<number>;
  /** Internal reflectance of the two fields of the chart. */
  readonly black: number;
  readonly white: number;
  /** From internal to measured reflectance; the identity when the surface plays no part. */
  readonly observe?: (internal: number) => number;
}

/** Chart of ASTM D2805 (from memory: black ≤ 0.01 taken as 0, white 0.80) and the usual complete hiding, 0.98. */
export const HIDING_DEFAULTS = Object.freeze({ black: 0, white: 0.8, contrastRatio: 0.98 });

const identity = (internal: number): number => internal;

/**
 * Contrast ratio Y(over black)/Y(over white) of a film, 0…1 (ISO 6504-3, ASTM D2805). Where a dye lets no light
 * back from either field, the limit black/white that it has kept at every thickness.
 */
export function contrastRatio(chart: HidingChart, thickness: number): number {
  const { k, s, luminous, black, white, observe = identity } = chart;
  let overBlack = 0;
  let overWhite = 0;
  for (let i = 0; i < luminous.length; i++) {
    const layer = film(k[i], s[i], thickness);
    overBlack += luminous[i] * observe(overBacking(layer, black));
    overWhite += luminous[i] * observe(overBacking(layer, white));
  }
  return overWhite > 0 ? overBlack / overWhite : black / white;
}

/**
 * Thickness (in the unit that K and S are per) at which the contrast ratio reaches `wanted`, to 1e−9 relative;
 * `Infinity` for a paint that never gets there (no scattering, or 1 wanted), 0 where the bare chart already does.
 * The ratio grows with thickness on a bare chart, and over a perfect black seen through a surface too, so a bracket
 * by steps of e⁴ and a safeguarded root in ln X cannot miss it. (A grey field under gloss can make it dip by a per
 * cent or two where a film only absorbs; the answer is then one of the thicknesses with that ratio.)
 * Throws `not-finite` and `out-of-range` for a `wanted` that is no ratio.
 */
export function hidingThickness(chart: HidingChart, wanted: number = HIDING_DEFAULTS.contrastRatio): number {
  checkNumber(wanted, "wanted", { min: 0, max: 1 });
  if (contrastRatio(chart, 0) >= wanted) return 0;
  if (wanted === 1) return Number.POSITIVE_INFINITY;
  const excess = (logThickness: number) => contrastRatio(chart, Math.exp(logThickness)) - wanted;
  let low = 0;
  while (excess(low) > 0) low -= 4;
  let high = low + 4;
  while (excess(high) < 0) {
    high += 4;
    if (high > 80) return Number.POSITIVE_INFINITY;
  }
  return Math.exp(findRoot(excess, high - 4, high).x);
}
