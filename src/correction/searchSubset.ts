import { solveTransposed, upperFactor } from "../numeric/upperFactor.js";
import { walkLattice } from "../numeric/walkLattice.js";
import { evenWeights, worseWeighMore, worstAt } from "./evenWeights.js";
import type { Goal } from "./goal.js";
import type { Problem } from "./problem.js";
import { refineSubset, type SubsetBox } from "./refineSubset.js";
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
  /** The best amounts before rounding. */
  readonly amounts: Float64Array;
  readonly nodes: number;
  /** The least that a part cut off by the limit on nodes might score; Infinity where none was. */
  readonly open: number;
}

/**
 * How far the linear model may be off, where the squares at its best point are s₀² and a point lies d further:
 * √(s₀² + d²) is trusted down to the less of BEND·d and BOW·d². Held by the comparison with exhaustive search.
 */
const BEND = 0.5;
const BOW = 0.3;

/** A part is searched with one model as long as no toner in it changes the mix's scattering by more than this share. */
const TRUST = 0.2;

const MOST_PARTS = 60;
const MINIMAX_ROUNDS = 6;

/**
 * Branch and bound over the amounts of a few toners. The continuous optimum within a part bounds what its lattice points
 * score; a part in which the mix changes too much for one linear model is halved; elsewhere every lattice point that the
 * model, allowing for its error, sees below the best is offered.
 */
export function searchSubset(
  problem: Problem,
  models: SubsetModels,
  toners: readonly number[],
  start: ArrayLike<number>,
  quest: SubsetQuest,
): SubsetResult {
  const { bench } = problem;
  const low = toners.map((j) => bench.least[j]);
  const high = toners.map((j) => Math.min(bench.stock[j], bench.room));
  const whole = optimum(problem.goal, models, toners, { low, high, room: bench.room }, start, quest);
  let nodes = 0;
  let open = Number.POSITIVE_INFINITY;
  let parts = 0;

  const search = (local: LocalOptimum, box: SubsetBox): void => {
    if (local.bound > quest.best()) return;
    const walk = latticeNear(problem, local.model, box, quest.best());
    const split = parts < MOST_PARTS ? tooWide(problem, local.model, box, walk) : -1;
    if (split < 0) {
      const { nodes: visited, isComplete } = walk.visit(quest, quest.maxNodes - nodes);
      nodes += visited;
      if (!isComplete) open = Math.min(open, local.bound);
      return;
    }
    const middle = local.model.amounts[split];
    const cut = Math.min(
      Math.max(middle, box.low[split] + 0.05 * (box.high[split] - box.low[split])),
      box.high[split] - 0.05 * (box.high[split] - box.low[split]),
    );
    parts += 2;
    const halves = [
      { ...box, high: box.high.map((value, i) => (i === split ? cut : value)) },
      { ...box, low: box.low.map((value, i) => (i === split ? cut : value)) },
    ].filter((half) => half.low.reduce((sum, value) => sum + value, 0) <= bench.room);
    for (const half of halves) {
      search(optimum(problem.goal, models, toners, half, local.model.amounts, quest), half);
    }
  };

  if (toners.every((j) => bench.unit[j] === 0)) {
    if (whole.bound <= quest.best()) quest.offer(whole.nearest.amounts);
  } else search(whole, { low, high, room: bench.room });
  return { amounts: whole.nearest.amounts, nodes, open };
}

interface LocalOptimum {
  /** Where the (for minimax: reweighted) squares are least. */
  readonly model: SubsetModel;
  /** The best by the objective itself; the same but for minimax. */
  readonly nearest: SubsetModel;
  readonly bound: number;
}

function optimum(
  goal: Goal,
  models: SubsetModels,
  toners: readonly number[],
  box: SubsetBox,
  start: ArrayLike<number>,
  { best }: SubsetQuest,
): LocalOptimum {
  if (goal.objective === "least-squares") {
    const weights = goal.aims.map(({ weight }) => weight);
    const model = refineSubset(models, toners, box, start, weights);
    return { model, nearest: model, bound: Math.sqrt(model.squares) * CONVERGED };
  }
  let weights = evenWeights(goal, best());
  let model = refineSubset(models, toners, box, start, weights);
  let nearest = model;
  let bound = Math.sqrt(model.squares);
  for (let round = 0; round < MINIMAX_ROUNDS && bound <= best(); round++) {
    weights = worseWeighMore(goal, weights, model, best());
    model = refineSubset(models, toners, box, model.amounts, weights);
    bound = Math.max(bound, Math.sqrt(model.squares));
    if (worstAt(goal, model) < worstAt(goal, nearest)) nearest = model;
  }
  return { model, nearest, bound: bound * CONVERGED };
}

/** What a refinement that stopped may still have left. */
const CONVERGED = 0.999;

/** The lattice points of a part around the best point of its model, not yet walked over. */
function latticeNear({ bench }: Problem, model: SubsetModel, box: SubsetBox, best: number) {
  const { toners, amounts, squares, gram, side } = model;
  const order = toners.length;
  const triangle = upperFactor(gram, order);
  const shift = solveTransposed(triangle, order, side);
  const right = shift.slice();
  let rest = squares;
  for (let i = 0; i < order; i++) {
    rest -= shift[i] * shift[i];
    for (let j = i; j < order; j++) right[i] += triangle[i * order + j] * amounts[j];
  }
  return {
    triangle,
    radius: Math.sqrt(Math.max(0, reach(best, rest))),
    visit: ({ best: now, offer }: SubsetQuest, maxNodes: number) =>
      walkLattice(
        {
          triangle,
          right,
          steps: toners.map((j) => bench.unit[j]),
          low: box.low,
          high: box.high,
          sumAtMost: box.room,
          maxNodes,
        },
        reach(best, rest),
        (x) => {
          offer(x);
          return reach(now(), rest);
        },
      ),
  };
}

/** d² up to which √(rest + d²) − min(BEND·d, BOW·d²) ≤ score; negative where nothing is within reach. */
function reach(score: number, rest: number): number {
  const open = BEND * BEND * score * score + (1 - BEND * BEND) * (score * score - rest);
  if (open < 0) return -1;
  const bent = ((BEND * score + Math.sqrt(open)) / (1 - BEND * BEND)) ** 2;
  const b = 2 * BOW * score - 1;
  const discriminant = b * b - 4 * BOW * BOW * (score * score - rest);
  if (discriminant < 0) return bent;
  const bowed = (-b - Math.sqrt(discriminant)) / (2 * BOW * BOW);
  return bowed >= 0 ? Math.min(bent, bowed) : bent;
}

/** The toner over whose range within reach the mix changes more than one model is trusted with, or −1. */
function tooWide(
  { model: { coefficients }, bench }: Problem,
  { toners, amounts }: SubsetModel,
  { low, high }: SubsetBox,
  { triangle, radius }: { readonly triangle: Float64Array; readonly radius: number },
): number {
  const order = toners.length;
  const { size, s } = coefficients;
  const scattering = (j: number) => {
    let sum = 0;
    for (let b = 0; b < size; b++) sum += s[j * size + b];
    return sum;
  };
  let inPot = 0;
  bench.pot.forEach((grams, j) => {
    if (grams > 0) inPot += grams * scattering(j);
  });
  toners.forEach((j, i) => {
    inPot += amounts[i] * scattering(j);
  });
  let widest = -1;
  let most = TRUST;
  for (let i = 0; i < order; i++) {
    const unit = new Float64Array(order);
    unit[i] = 1;
    const isDependent = Array.from({ length: order }, (_, k) => triangle[k * order + k]).some(
      (pivot) => pivot === 0,
    );
    const column = solveTransposed(triangle, order, unit);
    const half = isDependent ? Number.POSITIVE_INFINITY : radius * Math.hypot(...column);
    const reached = Math.min(high[i], amounts[i] + half) - Math.max(low[i], amounts[i] - half);
    const width = Math.min(high[i] - low[i], reached);
    const change = (width * scattering(toners[i])) / inPot;
    if (change > most && width > 2 * bench.unit[toners[i]]) {
      most = change;
      widest = i;
    }
  }
  return widest;
}
