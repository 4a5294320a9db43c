import { numbersWithDefaults } from "../core/shape/withDefaults.js";

/** An edge is painted up to a hard line; over a blend the colour may fade out. */
export const TARGET_ROLES = ["edge", "blend"] as const;

/** One of `TARGET_ROLES`. */
export type TargetRole = (typeof TARGET_ROLES)[number];

/** The largest ΔE00 that still counts as a match, by the role of the target. */
export interface Tolerance {
  /** Of a panel painted up to a hard line. */
  readonly edgeDeltaE00: number;
  /** Of a panel over which the colour may fade out. */
  readonly blendDeltaE00: number;
}

/** Common practice, no source: half a unit is hard to see at an edge, one unit is lost in a blend. */
export const TOLERANCE_DEFAULTS: Tolerance = Object.freeze({ edgeDeltaE00: 0.5, blendDeltaE00: 1 });

/** What is left out keeps its default. */
export const TOLERANCE = numbersWithDefaults(TOLERANCE_DEFAULTS, { min: 0, max: 100, aboveMin: true });

/**
 * ΔE00 allowed to a target of a role under a light whose weight is `lightShare` (0…1) of the heaviest one:
 * tolerance/√share, the same exchange that weighted least squares makes. A light of no weight allows anything.
 */
export function allowedDeltaE00(tolerance: Tolerance, role: TargetRole, lightShare: number): number {
  const limit = role === "edge" ? tolerance.edgeDeltaE00 : tolerance.blendDeltaE00;
  return limit / Math.sqrt(lightShare);
}
