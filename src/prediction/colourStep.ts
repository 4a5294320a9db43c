import { ciede2000 } from "../colorimetry/ciede2000.js";
import type { Lab } from "../colorimetry/lab.js";

/** How far one colour is from another that came before it. */
export interface ColourStep {
  /** ΔL*, Δa*, Δb*. */
  readonly deltaLab: Lab;
  /** ΔC*. */
  readonly deltaChroma: number;
  /** Δh in degrees by the shorter way, −180 … 180; 0 where either colour is neutral and has no hue. */
  readonly deltaHue: number;
  readonly deltaE00: number;
}

/** The step between two colours under the same light: Δh = atan2(a₁b₂ − b₁a₂, a₁a₂ + b₁b₂). */
export function colourStep(from: Lab, to: Lab): ColourStep {
  const [l1, a1, b1] = from;
  const [l2, a2, b2] = to;
  return {
    deltaLab: [l2 - l1, a2 - a1, b2 - b1],
    deltaChroma: Math.hypot(a2, b2) - Math.hypot(a1, b1),
    deltaHue: (Math.atan2(a1 * b2 - b1 * a2, a1 * a2 + b1 * b2) * 180) / Math.PI,
    deltaE00: ciede2000(from, to),
  };
}
