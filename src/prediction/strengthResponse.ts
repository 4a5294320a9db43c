import { reflectivity } from "../optics/infiniteFilm.js";
import type { SurfaceTerms } from "../surface/saunderson.js";
import { type Coefficients, mix } from "../toners/coefficients.js";

/** Reflectance of a mix and what it owes to the strength of its cans, over all geometries and bands. */
export interface StrengthResponse {
  readonly k: Float64Array;
  readonly s: Float64Array;
  readonly reflectance: Float64Array;
  /** ∂R/∂ln K at fixed S, of the toners' K; and ∂R/∂K. */
  readonly byLogRatio: Float64Array;
  readonly byAbsorption: Float64Array;
  /** ∂R/∂k2 of the surface, and R∞. */
  readonly byK2: Float64Array;
  readonly internal: Float64Array;
  /** ∂R/∂ln fⱼ at `[j·size + band]`. */
  readonly byLogStrength: Float64Array;
}

/** Room for a response, to be used again and again by a solver. */
export function createStrengthResponse({ toners, size }: Coefficients): StrengthResponse {
  const bands = () => new Float64Array(size);
  return {
    k: bands(),
    s: bands(),
    reflectance: bands(),
    byLogRatio: bands(),
    byAbsorption: bands(),
    byK2: bands(),
    internal: bands(),
    byLogStrength: new Float64Array(toners * size),
  };
}

/** What is not the toners': a factor e^logRatio on their K/S, absorption besides theirs, another surface. */
export interface Stray {
  readonly logRatio: Float64Array;
  readonly absorption: Float64Array;
  /** By geometry: what the surface adds to R, and k2 + rise·(R∞ − ½) instead of k2. */
  readonly surface: readonly { readonly offset: number; readonly k2: number; readonly rise: number }[];
}

/** Stray absorption takes away no more than this share of what the toners absorb. */
const LEAST_SHARE = 0.05;

/**
 * R of `amounts` (grams times the change of strength, in the order of the toners), untied to any card, and its slopes:
 * K = e^logRatio·ΣgⱼfⱼKⱼ + absorption, S = ΣgⱼfⱼSⱼ, gain ∝ 1 − k2, ∂R/∂ln K = −dRm/dR∞·R∞(1 − R∞)/(1 + R∞),
 * ∂R/∂ln fⱼ = gⱼfⱼ(∂R/∂K·e^logRatio·Kⱼ − ∂R/∂ln K·Sⱼ/S). A mix that does not absorb or scatter at all gives NaN.
 */
export function strengthResponse(
  {
    coefficients,
    surfaces,
  }: { readonly coefficients: Coefficients; readonly surfaces: readonly SurfaceTerms[] },
  amounts: ArrayLike<number>,
  { logRatio, absorption, surface }: Stray,
  into: StrengthResponse,
): void {
  const { toners, size } = coefficients;
  const { k, s, reflectance, byLogRatio, byAbsorption, byK2, internal, byLogStrength } = into;
  mix(coefficients, amounts, k, s);
  const bands = size / surfaces.length;
  const byLogMixK = new Float64Array(size);
  for (let b = 0; b < size; b++) {
    const g = Math.floor(b / bands);
    const { offset, gain, k2 } = surfaces[g];
    const own = k[b] * Math.exp(logRatio[b]);
    k[b] = Math.max(LEAST_SHARE * own, own + absorption[b]);
    const inside = reflectivity(k[b], s[b]);
    const back = k2 + surface[g].k2 + surface[g].rise * (inside - 0.5);
    const through = 1 - back * inside;
    const scale = gain / (1 - k2);
    internal[b] = inside;
    reflectance[b] = offset + surface[g].offset + (scale * (1 - back) * inside) / through;
    byK2[b] = (-scale * inside * (1 - inside)) / (through * through);
    const slope = (scale * (1 - back)) / (through * through) + byK2[b] * surface[g].rise;
    byLogMixK[b] = (-slope * inside * (1 - inside)) / (1 + inside);
    byAbsorption[b] = byLogMixK[b] / k[b];
    byLogRatio[b] = byAbsorption[b] * own;
  }
  for (let j = 0; j < toners; j++) {
    for (let b = 0, i = j * size; b < size; b++, i++) {
      const more = byAbsorption[b] * Math.exp(logRatio[b]) * coefficients.k[i];
      byLogStrength[i] = amounts[j] * (more - (byLogMixK[b] / s[b]) * coefficients.s[i]);
    }
  }
}
