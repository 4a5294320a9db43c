import type { Anchor } from "../../forward/forwardModel.js";
import { reflectivityFromRatio, reflectivitySlope } from "../../optics/infiniteFilm.js";
import { measuredReflectance, measuredSlope, type SurfaceTerms } from "../../surface/saunderson.js";
import type { Reach } from "./reach.js";

/** What is known of every band: K/S, and scattering as a multiple of the mean over the bands. */
export interface Ranges {
  readonly qLow: Float64Array;
  readonly qHigh: Float64Array;
  readonly sLow: Float64Array;
  readonly sHigh: Float64Array;
}

export function copyRanges({ qLow, qHigh, sLow, sHigh }: Ranges): Ranges {
  return { qLow: qLow.slice(), qHigh: qHigh.slice(), sLow: sLow.slice(), sHigh: sHigh.slice() };
}

/** Reflectance·mean ≥ or ≤ constant·mean + byS·S + byK·K, for every mix within the ranges. */
export interface BandEstimates {
  readonly constant: Float64Array;
  readonly byS: Float64Array;
  readonly byK: Float64Array;
}

/** The same as functionals of the additions, at `[band·columns + column]`. */
export function estimateFunctionals(
  { columns, size, k, s, mean }: Reach,
  { constant, byS, byK }: BandEstimates,
): Float64Array {
  const f = new Float64Array(size * columns);
  for (let c = 0; c < columns; c++) {
    for (let b = 0, from = c * size; b < size; b++, from++) {
      f[b * columns + c] = constant[b] * mean[c] + byS[b] * s[from] + byK[b] * k[from];
    }
  }
  return f;
}

/** What turns K/S of a band into measured reflectance. */
export interface BandOptics {
  readonly surfaces: readonly SurfaceTerms[];
  readonly anchor: Anchor;
  /** K/S of the reference mix, where tangents touch. */
  readonly reference: Float64Array;
}

/** At K = 0 the slope of reflectance is infinite; a tangent touches no nearer to it than here. */
const LEAST_RATIO = 1e-7;

/**
 * Reflectance is a convex falling function of q = K/S: above its tangents, below its secants. With e = q − q₀ and
 * z = K − q₀S = e·S, e is bounded by McCormick's inequalities (1976) on the ranges of e and s = S/mean:
 * e·mean ≤ (z − e_lo(S − s_lo·mean))/s_lo and ≤ (z − e_hi(S − s_hi·mean))/s_hi; e·mean ≥ the same with the ends of s
 * exchanged. Of each pair the mean is taken.
 */
export function bandEstimates(
  { surfaces, anchor, reference }: BandOptics,
  { qLow, qHigh, sLow, sHigh }: Ranges,
): { readonly below: BandEstimates; readonly above: BandEstimates } {
  const size = reference.length;
  const bands = size / surfaces.length;
  const empty = (): BandEstimates => ({
    constant: new Float64Array(size),
    byS: new Float64Array(size),
    byK: new Float64Array(size),
  });
  const below = empty();
  const above = empty();
  for (let b = 0; b < size; b++) {
    const surface = surfaces[Math.floor(b / bands)];
    const measured = (q: number) => measuredReflectance(reflectivityFromRatio(q), surface) + anchor.shift[b];
    const q0 = Math.max(LEAST_RATIO, Math.min(qHigh[b], Math.max(qLow[b], reference[b])));
    const inside = reflectivityFromRatio(q0);
    const tangent = measuredSlope(inside, surface) * reflectivitySlope(inside);
    const width = qHigh[b] - qLow[b];
    const atLow = measured(qLow[b]);
    const secant = width > 0 ? (measured(qHigh[b]) - atLow) / width : 0;
    put(below, b, {
      value: measured(q0),
      slope: tangent,
      q0,
      q: [qLow[b], qHigh[b]],
      s: [sLow[b], sHigh[b]],
    });
    put(above, b, {
      value: atLow + secant * (q0 - qLow[b]),
      slope: secant,
      q0,
      q: [qLow[b], qHigh[b]],
      s: [sHigh[b], sLow[b]],
    });
  }
  return { below, above };
}

interface Line {
  readonly value: number;
  readonly slope: number;
  readonly q0: number;
  readonly q: readonly [number, number];
  readonly s: readonly [number, number];
}

/** value + slope·e with e bounded as above; `s` begins with the end that goes with the low end of e. */
function put(into: BandEstimates, b: number, { value, slope, q0, q, s }: Line): void {
  let constant = value;
  let byS = 0;
  let byK = 0;
  for (const end of [0, 1] as const) {
    const e = q[end] - q0;
    const half = slope / 2 / s[end];
    byK += half;
    byS -= half * (q0 + e);
    constant += half * e * s[end];
  }
  into.constant[b] = constant;
  into.byS[b] = byS;
  into.byK[b] = byK;
}
