import { withoutTail } from "../numeric/scalar/withoutTail.js";
import { after } from "../problem/after.js";
import { isWithin, weightedDifference } from "../problem/goal.js";
import { poured } from "../problem/poured.js";
import type { Problem } from "../problem/problem.js";
import type { Choice } from "./correction.js";

/** Additions in the order of the toner set as something to choose, judged by the exact model. */
export function choice(problem: Problem, additions: ArrayLike<number>): Choice {
  const { model, goal } = problem;
  const { lab } = after(problem, additions);
  const used = poured(additions);
  return {
    additions: used.map((j) => ({ toner: model.set.toners[j].id, grams: additions[j] })),
    pours: used.length,
    grams: withoutTail(used.reduce((sum, j) => sum + additions[j], 0)),
    weightedDeltaE00: weightedDifference(goal, lab),
    isWithinTolerance: isWithin(goal, lab),
  };
}
