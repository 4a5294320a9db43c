import { checkFactors, checkPair, DIVISOR, FACTOR } from "./checkTriple.js";
import { hueDifference } from "./hueDifference.js";
import type { Lab } from "./lab.js";

/** Parametric factors and weights of CIE94. */
export interface Cie94Options {
  readonly kL: number;
  readonly kC: number;
  readonly kH: number;
  readonly k1: number;
  readonly k2: number;
}

/** Reference conditions, also used for paint and print. */
export const CIE94_GRAPHIC_ARTS: Cie94Options = { kL: 1, kC: 1, kH: 1, k1: 0.045, k2: 0.015 };
/** Textiles: lightness counts half. */
export const CIE94_TEXTILES: Cie94Options = { kL: 2, kC: 1, kH: 1, k1: 0.048, k2: 0.014 };

/**
 * CIE 1994 colour difference: √((ΔL/kL)² + (ΔC/(kC·SC))² + (ΔH/(kH·SH))²), SC = 1 + k1·C₁, SH = 1 + k2·C₁.
 * Not symmetric: C₁ is the chroma of the reference. Constants for graphic arts unless given.
 * Throws `wrong-length`, `not-finite` and the like. Source: CIE 116-1995.
 */
export function checkedCie94(reference: Lab, sample: Lab, options?: Cie94Options): number {
  checkPair(reference, sample);
  checkFactors(options, { kL: DIVISOR, kC: DIVISOR, kH: DIVISOR, k1: FACTOR, k2: FACTOR });
  return cie94(reference, sample, options);
}

/** The same of colours that were looked at before. */
export function cie94(
  reference: Lab,
  sample: Lab,
  { kL, kC, kH, k1, k2 }: Cie94Options = CIE94_GRAPHIC_ARTS,
): number {
  const chroma = Math.hypot(reference[1], reference[2]);
  const dL = sample[0] - reference[0];
  const dC = Math.hypot(sample[1], sample[2]) - chroma;
  const dH = hueDifference(reference, sample);
  return Math.hypot(dL / kL, dC / (kC * (1 + k1 * chroma)), dH / (kH * (1 + k2 * chroma)));
}
