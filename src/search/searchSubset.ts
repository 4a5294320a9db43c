import { sum } from "../core/sum.js";
import type { Goal } from "../problem/goal.js";
import type { Problem } from "../problem/problem.js";
import { FREE_SHARE } from "../problem/weighMix.js";
import { CONVERGED, type SubsetRefiner } from "./createSubsetRefiner.js";
import { evenWeights, leastCounted, worseWeighMore, worstAt } from "./evenWeights.js";
import { FAR } from "./furthest.js";
import { type LatticeCell, latticeNear } from "./latticeNear.js";
import { misjudged } from "./misjudged.js";
import { boxOf, type SubsetBox } from "./subsetBox.js";
import type { SubsetModel, SubsetModels } from "./subsetModel.js";

/** What is searched for among the amounts of a few toners. */
export interface SubsetQuest {
  /** The score to beat; falls while the search goes on. */
  readonly best: () => number;
  /** Called with the amounts of a mix that may beat it. */
  readonly offer: (amounts: Float64Array) => void;
  /** Most lattice points and branches to go through. */
  readonly maxNodes: number;
}

export interface SubsetResult {
  /** The best amounts before rounding; none where even they do not come down to the best score. */
  readonly amounts: Float64Array | undefined;
  readonly nodes: number;
  /** Lower bound on the score of what the budget of work cut off; Infinity where nothing was. */
  readonly open: number;
}

/** The exact objective near mixes of a few toners. */
export interface SubsetTools {
  readonly models: SubsetModels;
  readonly refiner: SubsetRefiner;
  /** Of the aims, in least squares. */
  readonly weights: ArrayLike<number>;
}

/** Without rounding, a quick refinement may stop this much above its limit. */
const UNFINISHED = 1.05;

/** Optima that differ by less than this share are one. */
const SAME_VALLEY = 0.01;

const MOST_PARTS = 60;
const MINIMAX_ROUNDS = 6;

/**
 * Branch and bound over the amounts of a few toners. The continuous optimum within a part bounds what its lattice points
 * score; a part at whose ends the linear model is found to be more wrong than is allowed for is cut in two; elsewhere
 * every lattice point that the model, allowing for its error, sees below the best is offered.
 */
export function searchSubset(
  problem: Problem,
  tools: SubsetTools,
  toners: readonly number[],
  start: ArrayLike<number>,
  quest: SubsetQuest,
): SubsetResult {
  const { bench, goal } = problem;
  const all = boxOf(bench, toners);
  const isSmooth = toners.every((j) => bench.unit[j] === 0);
  const whole = optimum(goal, tools, toners, { box: all, start }, quest.best() * (isSmooth ? UNFINISHED : 1));
  let nodes = 0;
  let open = Number.POSITIVE_INFINITY;
  let parts = 0;

  const walk = (cell: LatticeCell, floor: number, most: number): boolean => {
    const { nodes: visited, isComplete } = cell.walk(
      () => Math.max(floor, quest.best()),
      quest.offer,
      Math.min(most, quest.maxNodes - nodes),
    );
    nodes += visited;
    return isComplete;
  };

  const search = (local: LocalOptimum | undefined, box: SubsetBox): void => {
    // A refinement that was stopped early gives no bound.
    if (problem.work.isSpent()) open = 0;
    if (!local || local.bound > Math.max(local.floor, quest.best())) return;
    const { model, floor, weights } = local;
    const cell = latticeNear(bench, model, box);
    // The nearest point first: the lower the bar, the less there is to look at.
    if (walk(cell, floor, toners.length)) return;
    const bar = Math.max(floor, quest.best());
    const cut = misjudged(tools.models, cell, box, bench.unit, { weights, bar });
    if (cut && parts < MOST_PARTS && !problem.work.isSpent()) {
      parts += 2;
      const { toner, at } = cut;
      const halves = [
        { ...box, high: box.high.map((value, i) => (i === toner ? at : value)) },
        { ...box, low: box.low.map((value, i) => (i === toner ? at : value)) },
      ].filter((half) => sum(half.low) <= bench.room);
      for (const half of halves) {
        search(optimum(goal, tools, toners, { box: half, start: model.amounts }, quest.best()), half);
      }
      return;
    }
    const isComplete = walk(cell, floor, Number.POSITIVE_INFINITY);
    if (!isComplete || cut) open = Math.min(open, local.bound);
  };

  const isSquares = goal.objective === "least-squares";
  const inPot = sum(bench.pot);
  // The risk of so large a pour may rule out a new pot around the old one.
  const isVast =
    bench.room > FREE_SHARE * inPot && tools.models.mostGrams(toners, quest.best()) > FREE_SHARE * inPot;
  const others = isSquares && (isSmooth || isVast) ? otherStarts(start, all, quest.best()) : [];
  const offer = ({ model }: LocalOptimum) =>
    quest.offer(tools.refiner.toTheEnd(toners, all, model.amounts, tools.weights).amounts);
  if (!isSmooth) search(whole, all);
  else if (whole && isSquares) offer(whole);
  else if (whole) {
    quest.offer(whole.nearest.amounts);
    // The squares reweighted bound the worst difference; what lies between is left open.
    open = whole.floor > 0 ? 0 : whole.bound;
  }
  for (const other of others) {
    const found = optimum(
      goal,
      tools,
      toners,
      { box: all, start: other },
      quest.best() * (isSmooth ? UNFINISHED : 1),
    );
    if (found && isSmooth) offer(found);
    // Another local minimum, if it is lower.
    else if (found && !(whole && whole.bound <= found.bound * (1 + SAME_VALLEY))) search(found, all);
  }
  return { amounts: whole?.nearest.amounts, nodes, open };
}

/**
 * The same mix in a full cup: from there another pot around the old one is seen, which may be nearer. From far off an even
 * mix too, since there no linear model knows the way.
 */
function otherStarts(
  amounts: ArrayLike<number>,
  { high, room }: SubsetBox,
  score: number,
): readonly (readonly number[])[] {
  const sum = high.reduce((total, _, i) => total + amounts[i], 0);
  const even = high.map((most) => Math.min(most, room / high.length));
  if (!(sum > 0)) return [even];
  const filled = high.map((most, i) => Math.min(most, (amounts[i] / sum) * room));
  return score > FAR ? [filled, even] : [filled];
}

interface LocalOptimum {
  /** Where the (for minimax: reweighted) squares are least. */
  readonly model: SubsetModel;
  readonly weights: ArrayLike<number>;
  /** The best by the objective itself; the same but for minimax. */
  readonly nearest: SubsetModel;
  /** No mix of the part scores less, unless less than `floor`. */
  readonly bound: number;
  readonly floor: number;
}

/** The best mix of a part; undefined where nothing in it scores as low as `best`. */
function optimum(
  goal: Goal,
  { refiner, weights: own }: SubsetTools,
  toners: readonly number[],
  { box, start }: { readonly box: SubsetBox; readonly start: ArrayLike<number> },
  best: number,
): LocalOptimum | undefined {
  if (goal.objective === "least-squares") {
    const model = refiner.bestBelow(best, toners, box, start, own);
    return (
      model && { model, weights: own, nearest: model, bound: CONVERGED * Math.sqrt(model.squares), floor: 0 }
    );
  }
  let weights = evenWeights(goal, best);
  const floor = leastCounted(goal, weights);
  const bar = Math.max(floor, best);
  let model = refiner.bestBelow(bar, toners, box, start, weights);
  let nearest = model;
  for (let round = 0; round < MINIMAX_ROUNDS && model; round++) {
    weights = worseWeighMore(goal, weights, model, best);
    model = refiner.bestBelow(bar, toners, box, model.amounts, weights);
    if (model && nearest && worstAt(goal, model) < worstAt(goal, nearest)) nearest = model;
  }
  return model && nearest && { model, weights, nearest, bound: CONVERGED * Math.sqrt(model.squares), floor };
}
