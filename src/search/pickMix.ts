import { sum } from "../core/sum.js";
import { after } from "../problem/after.js";
import { isWithin, weightedDifference } from "../problem/goal.js";
import type { Problem } from "../problem/problem.js";
import { weighMix } from "../problem/weighMix.js";

/**
 * The mix worth pouring: of those within tolerance, or of all where none is, the one of least sum (`weighMix`). More to
 * choose from never makes the pick worse.
 */
export function pickMix<M extends Parameters<typeof weighMix>[1]>(
  problem: Problem,
  mixes: readonly M[],
): M | undefined {
  const matching = mixes.filter(({ additions }) => matches(problem, additions));
  let best: M | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const mix of matching.length > 0 ? matching : mixes) {
    const { sum } = weighMix(problem.bench, mix);
    if (sum < least) {
      best = mix;
      least = sum;
    }
  }
  return best;
}

/** Whether every target is within tolerance after these additions. */
export function matches(problem: Problem, additions: ArrayLike<number>): boolean {
  return isWithin(problem.goal, after(problem, additions).lab);
}

/** Whether squares as small as those after these additions leave room for a match: Σ w·ΔE₀₀² ≤ Σ w·allowed². */
export function mayMatch(problem: Problem, additions: ArrayLike<number>): boolean {
  const { goal } = problem;
  const most = sum(goal.aims.map(({ weight, allowed }) => (weight > 0 ? weight * allowed ** 2 : 0)));
  return weightedDifference(goal, after(problem, additions).lab) ** 2 <= most;
}
