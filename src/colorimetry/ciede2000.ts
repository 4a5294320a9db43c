import { checkFactors, checkPair, DIVISOR } from "./checkTriple.js";
import type { Lab } from "./lab.js";

/** Parametric factors of CIEDE2000. */
export interface Ciede2000Options {
  readonly kL: number;
  readonly kC: number;
  readonly kH: number;
}

/** Reference conditions; kL = 2 is usual for textiles. */
export const CIEDE2000_REFERENCE: Ciede2000Options = { kL: 1, kC: 1, kH: 1 };

export const CIEDE2000_RANGES = { kL: DIVISOR, kC: DIVISOR, kH: DIVISOR };

/** Weighting functions of CIEDE2000 at a mean lightness L̄, chroma C̄′ and hue h̄′ (radians, 0 ≤ h̄′ < 2π). */
export interface Ciede2000Weights {
  readonly sL: number;
  readonly sC: number;
  readonly sH: number;
  readonly rT: number;
}

export const DEGREE = Math.PI / 180;
const TURN = 2 * Math.PI;

/** Hues that differ by half a turn but for rounding count as half a turn apart, not as more. */
const HALF_TURN = Math.PI + 1e-12;

/**
 * CIEDE2000 colour difference, symmetric in reference and sample; kL = kC = kH = 1 unless given.
 * It has kinks: the mean hue jumps where two hues are half a turn apart. Throws `wrong-length`, `not-finite` and the
 * like. Source: CIE 142-2001, ISO/CIE 11664-6, in the form of Sharma, Wu & Dalal 2005.
 */
export function checkedCiede2000(reference: Lab, sample: Lab, options?: Ciede2000Options): number {
  checkPair(reference, sample);
  checkFactors(options, CIEDE2000_RANGES);
  return ciede2000(reference, sample, options);
}

/** The same of colours that were looked at before: searches call this millions of times. */
export function ciede2000(
  [l1, a1, b1]: Lab,
  [l2, a2, b2]: Lab,
  { kL, kC, kH }: Ciede2000Options = CIEDE2000_REFERENCE,
): number {
  const stretch = redGreenStretch((length(a1, b1) + length(a2, b2)) / 2);
  const c1 = length(stretch * a1, b1);
  const c2 = length(stretch * a2, b2);
  const h1 = hueAngle(stretch * a1, b1);
  const h2 = hueAngle(stretch * a2, b2);
  // Of a neutral neither matters: there ΔH is 0, which is all that they go into.
  const { turn, mean } = betweenHues(h1, h2);
  const { sL, sC, sH, rT } = ciede2000Weights((l1 + l2) / 2, (c1 + c2) / 2, mean);
  const dL = (l2 - l1) / (kL * sL);
  const dC = (c2 - c1) / (kC * sC);
  const dH = (2 * Math.sqrt(c1 * c2) * Math.sin(turn / 2)) / (kH * sH);
  return Math.sqrt(dL * dL + dC * dC + dH * dH + rT * dC * dH);
}

/** 1 + G: what a* is multiplied with, 1.5 for neutrals, 1 for high mean chroma C̄ab. */
export function redGreenStretch(meanChroma: number): number {
  return 1.5 - Math.sqrt(share25(meanChroma)) / 2;
}

/** S_L, S_C, S_H and R_T. */
export function ciede2000Weights(lightness: number, chroma: number, hue: number): Ciede2000Weights {
  const fromMid = (lightness - 50) ** 2;
  const t =
    1 -
    0.17 * Math.cos(hue - 30 * DEGREE) +
    0.24 * Math.cos(2 * hue) +
    0.32 * Math.cos(3 * hue + 6 * DEGREE) -
    0.2 * Math.cos(4 * hue - 63 * DEGREE);
  const rotation = 60 * DEGREE * Math.exp(-(((hue / DEGREE - 275) / 25) ** 2));
  return {
    sL: 1 + (0.015 * fromMid) / Math.sqrt(20 + fromMid),
    sC: 1 + 0.045 * chroma,
    sH: 1 + 0.015 * chroma * t,
    rT: -2 * Math.sqrt(share25(chroma)) * Math.sin(rotation),
  };
}

/** Hue angle in radians, 0 ≤ h < 2π; 0 for a neutral. */
export function hueAngle(a: number, b: number): number {
  const hue = Math.atan2(b, a);
  return hue < 0 ? hue + TURN : hue;
}

/** `Math.hypot` guards against overflow at many times the cost; no colour is that far out. */
function length(a: number, b: number): number {
  return Math.sqrt(a * a + b * b);
}

/** C⁷/(C⁷ + 25⁷). */
export function share25(chroma: number): number {
  const ratio = chroma / 25;
  const cube = ratio * ratio * ratio;
  const seventh = cube * cube * ratio;
  return seventh / (seventh + 1);
}

/** The turn from one hue to the other by the shorter way, and the hue halfway. */
export function betweenHues(h1: number, h2: number): { readonly turn: number; readonly mean: number } {
  const turn = h2 - h1;
  const sum = h1 + h2;
  if (Math.abs(turn) <= HALF_TURN) return { turn, mean: sum / 2 };
  return { turn: turn > 0 ? turn - TURN : turn + TURN, mean: (sum < TURN ? sum + TURN : sum - TURN) / 2 };
}
