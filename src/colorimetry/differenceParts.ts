import { ciede2000Weights, hueAngle, redGreenStretch } from "./ciede2000.js";
import type { Lab } from "./lab.js";

/** Parts of a difference that eyes name. */
export const DIFFERENCE_PARTS = ["lighter", "redder", "yellower", "moreChromatic"] as const;

/** One of `DIFFERENCE_PARTS`. */
export type DifferencePart = (typeof DIFFERENCE_PARTS)[number];

/** How a sample differs from a reference, in the words that eyes have for it; units of ΔE00. */
export type DifferenceParts = Readonly<Record<DifferencePart, number>>;

/**
 * ΔL/S_L; Δa′ and Δb′, their part along the mean colour divided by S_C, the part across by S_H; ΔC′/S_C. The weights
 * S and the stretched a′ are those of CIEDE2000 at the mean colour. Which parts stand for redder and yellower is our
 * convention. Source of the weights: ISO/CIE 11664-6.
 */
export function differenceParts([l1, a1, b1]: Lab, [l2, a2, b2]: Lab): DifferenceParts {
  const stretch = redGreenStretch((Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2);
  const [p1, p2] = [stretch * a1, stretch * a2];
  const [c1, c2] = [Math.hypot(p1, b1), Math.hypot(p2, b2)];
  const hue = hueAngle((p1 + p2) / 2, (b1 + b2) / 2);
  const { sL, sC, sH } = ciede2000Weights((l1 + l2) / 2, (c1 + c2) / 2, hue);
  const [cos, sin] = [Math.cos(hue), Math.sin(hue)];
  const along = ((p2 - p1) * cos + (b2 - b1) * sin) / sC;
  const across = ((b2 - b1) * cos - (p2 - p1) * sin) / sH;
  return {
    lighter: (l2 - l1) / sL,
    redder: along * cos - across * sin,
    yellower: along * sin + across * cos,
    moreChromatic: (c2 - c1) / sC,
  };
}
