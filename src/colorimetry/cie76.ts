import { checkPair } from "./checkTriple.js";
import type { Lab } from "./lab.js";

/**
 * CIE 1976 colour difference ΔE*ab: the distance in Lab; symmetric. Throws `wrong-length`, `not-finite` and the like.
 * Source: CIE 15, ISO/CIE 11664-4.
 */
export function checkedCie76(reference: Lab, sample: Lab): number {
  checkPair(reference, sample);
  return cie76(reference, sample);
}

/** The same of colours that were looked at before. */
export function cie76(reference: Lab, sample: Lab): number {
  return Math.hypot(sample[0] - reference[0], sample[1] - reference[1], sample[2] - reference[2]);
}
