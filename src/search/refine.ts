import { gradientSteps } from "../forward/evaluationSteps.js";
import {
  type LevenbergMarquardtOptions,
  levenbergMarquardt,
} from "../numeric/leastSquares/levenbergMarquardt.js";
import { createObjective } from "../problem/objective.js";
import type { Problem } from "../problem/problem.js";
import { scoreSteps } from "../problem/score.js";
import type { PaintCost } from "../problem/terms.js";

/** Enough to see which toners matter; the few that are kept are refined again. */
export const COARSE: LevenbergMarquardtOptions = Object.freeze({
  gradientTolerance: 1e-3,
  costTolerance: 1e-3,
  stepTolerance: 1e-3,
});

/** Far finer than any scale and any eye; the solver's own defaults are for certified problems. */
export const FINE: LevenbergMarquardtOptions = Object.freeze({
  gradientTolerance: 1e-6,
  costTolerance: 1e-8,
  stepTolerance: 1e-6,
});

/** Additions in the order of the toner set, and how the solver came to them. */
export interface Solution {
  readonly additions: Float64Array;
  readonly cost: number;
  readonly iterations: number;
  readonly stopReason: string;
  readonly converged: boolean;
}

export interface Refinement {
  readonly tolerances: LevenbergMarquardtOptions;
  readonly paint: PaintCost;
  /** Least addition of a toner, 0 unless given: below zero it asks what taking out would do. */
  readonly least?: (toner: number) => number;
}

/**
 * Levenberg–Marquardt on the objective over the additions of the toners in `free`, from `start` (same order as
 * `free`), with least ≤ Δⱼ ≤ stock and ΣΔ ≤ room.
 */
export function refine(
  problem: Problem,
  free: readonly number[],
  start: ArrayLike<number>,
  { tolerances, paint, least = () => 0 }: Refinement,
): Solution {
  const { bench, work } = problem;
  const objective = createObjective(problem, free, paint);
  const rows = objective.residualCount;
  const residualSteps = scoreSteps(problem);
  const n = free.length;
  const stepSteps = gradientSteps(problem.model, n) + 3 * rows * n * (n + 3) + n ** 4;
  const result = levenbergMarquardt(
    {
      ...objective,
      residuals(additions, out) {
        work.spend(residualSteps + stepSteps);
        objective.residuals(additions, out);
      },
      start,
      lower: free.map(least),
      upper: free.map((toner) => bench.stock[toner]),
      sumAtMost: bench.room,
    },
    { ...tolerances, shouldStop: work.isSpent },
  );
  const additions = new Float64Array(bench.pot.length);
  free.forEach((toner, i) => {
    additions[toner] = result.x[i];
  });
  const { cost, iterations, stopReason, converged } = result;
  return { additions, cost, iterations, stopReason, converged };
}
