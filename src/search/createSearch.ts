import { withoutTail } from "../numeric/scalar/withoutTail.js";
import type { Problem } from "../problem/problem.js";
import { createScore, scoreSteps } from "../problem/score.js";
import type { PaintCost } from "../problem/terms.js";
import { createSubsetRefiner } from "./createSubsetRefiner.js";
import { type SubsetTools, searchSubset } from "./searchSubset.js";
import { createSubsetModels } from "./subsetModel.js";

/** Additions of some toners, poured and before rounding. */
export interface FoundMix {
  readonly toners: readonly number[];
  /** In the order of the toner set. */
  readonly additions: Float64Array;
  readonly score: number;
  readonly unrounded: Float64Array;
}

/** Lattice points and branches that are gone through for a number of pours, and for one subset. */
export const MOST_NODES = 10_000;
const MOST_NODES_OF_SUBSET = 3000;

/** Looks into subsets one by one and keeps count. */
export interface Search {
  readonly score: (additions: ArrayLike<number>) => number;
  readonly tools: SubsetTools;
  /** The best mix of these toners, all of them poured, that scores less than `bar`. */
  within(toners: readonly number[], start: ArrayLike<number>, bar: number): FoundMix | undefined;
  /** Gives a number of nodes to go through; tells the least that what it did not suffice for might score. */
  open(nodes: number): { open(): number };
  counted(): { readonly subsets: number; readonly latticePoints: number };
}

export function createSearch(problem: Problem, paint: PaintCost): Search {
  const { bench, work } = problem;
  const pointSteps = scoreSteps(problem);
  const score = createScore(problem, paint);
  const models = createSubsetModels(problem, paint);
  const tools = {
    models,
    refiner: createSubsetRefiner(models, problem.goal.aims.length, work),
    weights: problem.goal.aims.map(({ weight }) => weight),
  };
  let subsets = 0;
  let latticePoints = 0;
  let left = MOST_NODES;
  let least = Number.POSITIVE_INFINITY;
  const spread = (toners: readonly number[], amounts: ArrayLike<number>): Float64Array => {
    const additions = new Float64Array(bench.pot.length);
    toners.forEach((j, i) => {
      additions[j] = amounts[i];
    });
    return additions;
  };
  return {
    score,
    tools,
    within(chosen, start, bar) {
      // Continuous amounts first: they take their best values once all others stand.
      const isWhole = (i: number) => bench.unit[chosen[i]] > 0;
      const all = Array.from(chosen.keys());
      const order = [...all.filter((i) => !isWhole(i)), ...all.filter(isWhole)];
      const toners = order.map((i) => chosen[i]);
      let found: Float64Array | undefined;
      let beaten = bar;
      const result = searchSubset(
        problem,
        tools,
        toners,
        order.map((i) => start[i]),
        {
          maxNodes: Math.min(left, MOST_NODES_OF_SUBSET, Math.floor(Math.max(0, work.left()) / pointSteps)),
          best: () => beaten,
          offer(amounts) {
            const value = score(spread(toners, amounts));
            if (!(value < beaten)) return;
            beaten = value;
            found = amounts.slice();
          },
        },
      );
      subsets++;
      latticePoints += result.nodes;
      left -= result.nodes;
      least = Math.min(least, result.open);
      if (!found) return undefined;
      const tidy = found.map((amount, i) => inUnits(amount, bench.unit[toners[i]]));
      return {
        toners: [...chosen].sort((a, b) => a - b),
        additions: spread(toners, tidy),
        score: beaten,
        unrounded: spread(toners, result.amounts ?? found),
      };
    },
    open(nodes) {
      left = nodes;
      least = Number.POSITIVE_INFINITY;
      return { open: () => least };
    },
    counted: () => ({ subsets, latticePoints }),
  };
}

function inUnits(amount: number, unit: number): number {
  return unit > 0 ? withoutTail(Math.round(amount / unit) * unit) : amount;
}
