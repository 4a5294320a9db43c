import type { Bench } from "./bench.js";
import type { ChosenBy } from "./correction.js";
import { PAINT_IS_FREE } from "./objective.js";
import { gramsOf, poured } from "./poured.js";
import type { Problem } from "./problem.js";
import { createScore } from "./score.js";

/** So much paint, as a share of the pot, weighs nothing (design value): colour comes first while a pot stays the pot. */
export const FREE_SHARE = 0.5;

/**
 * What mixes are chosen by: how far off, what their pours are worth, and thrift: what their paint beyond half as much
 * as the pot holds is worth. Of those that match, or of all where none does, the one of least sum is the answer.
 */
export function createWeighing(problem: Problem): (additions: ArrayLike<number>) => ChosenBy {
  const { bench } = problem;
  const scoreOf = createScore(problem, PAINT_IS_FREE);
  return (additions) => {
    const score = scoreOf(additions);
    const pours = bench.pourWorth * poured(additions).length;
    const paint = bench.paintWorth * excess(bench, additions);
    return { score, pours, paint, sum: score + pours + paint };
  };
}

/** Paint beyond what is free, in pots. */
function excess({ pot }: Bench, additions: ArrayLike<number>): number {
  return Math.max(0, gramsOf(additions) / gramsOf(pot) - FREE_SHARE);
}
