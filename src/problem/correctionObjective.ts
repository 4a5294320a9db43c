/** What is made small; one of `CORRECTION_OBJECTIVES`. */
export type CorrectionObjective = (typeof CORRECTION_OBJECTIVES)[number];

/**
 * `least-squares`: √Σ w ΔE00² over all targets, lights and geometries. `minimax`: the worst edge, each ΔE00 relative
 * to its allowance; a blend counts only beyond its own.
 */
export const CORRECTION_OBJECTIVES = ["least-squares", "minimax"] as const;
