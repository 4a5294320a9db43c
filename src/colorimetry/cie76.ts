import type { Lab } from "./lab.js";

/** CIE 1976 colour difference ΔE*ab: the distance in Lab; symmetric. Source: CIE 15, ISO/CIE 11664-4. */
export function cie76(reference: Lab, sample: Lab): number {
  return Math.hypot(sample[0] - reference[0], sample[1] - reference[1], sample[2] - reference[2]);
}
