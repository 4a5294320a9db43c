import type { Lab } from "./lab.js";

/**
 * |ΔH*ab| = √(Δa*² + Δb*² − ΔC*²), factored: what cancels is far below the chroma difference beside which the
 * result is used. Source: CIE 15.
 */
export function hueDifference([, a1, b1]: Lab, [, a2, b2]: Lab): number {
  const apart = Math.hypot(a2 - a1, b2 - b1);
  const chroma = Math.abs(Math.hypot(a2, b2) - Math.hypot(a1, b1));
  return Math.sqrt(Math.max(0, (apart - chroma) * (apart + chroma)));
}
