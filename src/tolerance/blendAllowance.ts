import { ciede2000, ciede2000Weights, hueAngle, redGreenStretch } from "../colorimetry/ciede2000.js";
import type { Lab } from "../colorimetry/lab.js";
import { numbersWithDefaults } from "../core/shape/withDefaults.js";
import type { TargetRole, Tolerance } from "./tolerance.js";

/** How far a blend may be off in each component, in the units of CIEDE2000 (ΔL′/S_L, ΔC′/S_C, ΔH′/S_H). */
export interface BlendAllowance {
  readonly lightness: number;
  readonly chroma: number;
  readonly hue: number;
}

/**
 * Common practice, no source: a blend hides a step of lightness or chroma better than one of hue, which shows as two
 * paints.
 */
export const BLEND_ALLOWANCE_DEFAULTS: BlendAllowance = Object.freeze({
  lightness: 1.2,
  chroma: 1.2,
  hue: 0.6,
});

/** What is left out keeps its default. */
export const BLEND_ALLOWANCE = numbersWithDefaults(BLEND_ALLOWANCE_DEFAULTS, {
  min: 0,
  max: 100,
  aboveMin: true,
});

/**
 * How much of what its role allows a panel uses up, 1 being all: ΔE00/edgeDeltaE00 for an edge, for a blend
 * √((ΔL′/S_L/lightness)² + (ΔC′/S_C/chroma)² + (ΔH′/S_H/hue)²), an ellipsoid around the panel.
 */
export function allowanceUsed(
  { role, panel }: { readonly role: TargetRole; readonly panel: Lab },
  paint: Lab,
  { tolerance, blend }: { readonly tolerance: Tolerance; readonly blend: BlendAllowance },
): number {
  if (role === "edge") return ciede2000(panel, paint) / tolerance.edgeDeltaE00;
  const stretch = redGreenStretch(Math.hypot(panel[1], panel[2]));
  const chromaOf = ([, a, b]: Lab) => Math.hypot(stretch * a, b);
  const [own, other] = [chromaOf(panel), chromaOf(paint)];
  const hue = hueAngle(stretch * panel[1], panel[2]);
  const { sL, sC, sH } = ciede2000Weights(panel[0], own, hue);
  const across = Math.hypot(stretch * (paint[1] - panel[1]), paint[2] - panel[2]);
  const hueStep = Math.sqrt(Math.max(0, across ** 2 - (other - own) ** 2));
  return Math.hypot(
    (paint[0] - panel[0]) / sL / blend.lightness,
    (other - own) / sC / blend.chroma,
    hueStep / sH / blend.hue,
  );
}
