import { after } from "../after.js";
import { isWithin } from "../goal.js";
import type { Problem } from "../problem.js";
import { createWeighing } from "../weighMix.js";
import type { FoundMix } from "./createSearch.js";

/**
 * The mix worth pouring: of those within tolerance, or of all where none is, the one of least `sum` (`createWeighing`);
 * undefined where to pour nothing has less. More to choose from never makes the pick worse.
 */
export function pickMix<M extends Pick<FoundMix, "additions">>(
  problem: Problem,
  mixes: readonly M[],
): M | undefined {
  const weigh = createWeighing(problem);
  const matching = mixes.filter(({ additions }) => matches(problem, additions));
  let best: M | undefined;
  const nothing = new Float64Array(problem.bench.pot.length);
  let least = matching.length > 0 ? Number.POSITIVE_INFINITY : weigh(nothing).sum;
  for (const mix of matching.length > 0 ? matching : mixes) {
    const { sum } = weigh(mix.additions);
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
