import { after } from "../problem/after.js";
import { isWithin } from "../problem/goal.js";
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
