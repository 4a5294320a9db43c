import { checkNumber } from "../core/check.js";
import { checkPair } from "./checkTriple.js";
import type { Lab } from "./lab.js";

/** cos 16° and sin 16°. */
const COS_16 = 0.9612616959383189;
const SIN_16 = 0.27563735581699916;

/** Somewhat below this, L99 has no value; noise makes a black a little darker than 0 and no more. */
const DARKEST = -60;

/**
 * DIN99 colour difference for kE = kCH = 1: the distance in L99, a99, b99; symmetric. L* at least −60.
 * Throws `wrong-length`, `not-finite`, `out-of-range` and the like. Source: DIN 6176.
 */
export function checkedDin99(reference: Lab, sample: Lab): number {
  checkPair(reference, sample);
  checkNumber(reference[0], "reference[0]", { min: DARKEST });
  checkNumber(sample[0], "sample[0]", { min: DARKEST });
  return din99(reference, sample);
}

/** The same of colours that were looked at before. */
export function din99(reference: Lab, sample: Lab): number {
  const first = din99FromLab(reference);
  const second = din99FromLab(sample);
  return Math.hypot(second[0] - first[0], second[1] - first[1], second[2] - first[2]);
}

/**
 * L99 = 105.51 ln(1 + 0.0158 L*); a*, b* turned by 16° to e and f (f × 0.7), and the chroma G = √(e² + f²)
 * compressed to ln(1 + 0.045 G)/0.045. Source: DIN 6176.
 */
function din99FromLab([lightness, a, b]: Lab): Lab {
  const e = a * COS_16 + b * SIN_16;
  const f = 0.7 * (b * COS_16 - a * SIN_16);
  const x = 0.045 * Math.hypot(e, f);
  // ln(1 + x)/x → 1 for neutrals.
  const shrink = x === 0 ? 1 : Math.log1p(x) / x;
  return [105.51 * Math.log1p(0.0158 * lightness), shrink * e, shrink * f];
}
