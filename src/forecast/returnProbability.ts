import type { Lab } from "../colorimetry/lab.js";
import type { Random } from "../numeric/probability/random.js";
import { labOfAim } from "../problem/goal.js";
import type { Problem } from "../problem/problem.js";
import { drawColours } from "./drawColours.js";
import { isReachable, oncePoured } from "./reachable.js";

/**
 * Share of the worlds drawn (as many as the work allowed suffices for) in which, once `additions` are poured, every target can still be brought within its
 * tolerance by adding more within cup and stock (found by the solver, so a lower bound for each world). A world is a
 * colour of the poured pot; the targets are moved against it by as much as it lies off the prediction.
 */
export function returnProbability(
  problem: Problem,
  additions: Float64Array,
  colours: {
    readonly mean: Float64Array;
    readonly covariance: Float64Array;
    readonly predicted: Float64Array;
  },
  { draws, random }: { readonly draws: number; readonly random: Random },
): number {
  const poured = oncePoured(problem, additions);
  const worlds = drawColours(colours, draws, random);
  let tried = 0;
  let reachable = 0;
  for (const lab of worlds) {
    if (tried > 0 && problem.work.isSpent()) break;
    tried++;
    const aims = problem.goal.aims.map((aim) => {
      const moved = labOfAim(aim, lab).map(
        (value, axis) => value - lab[aim.place + axis] + colours.predicted[aim.place + axis],
      );
      return { ...aim, lab: moved as unknown as Lab };
    });
    if (isReachable({ ...poured, goal: { ...problem.goal, aims } })) reachable++;
  }
  return reachable / tried;
}
