import {
  createSubsetSearch,
  type GramForm,
  LARGEST_SUBSET,
  type SubsetFit,
} from "../numeric/createSubsetSearch.js";
import { createSearch, type FoundMix, MOST_NODES, type Search } from "./createSearch.js";
import { evenWeights, leastCounted } from "./evenWeights.js";
import type { Goal } from "./goal.js";
import { createLinearMix, gramForm } from "./linearMix.js";
import type { PaintCost } from "./objective.js";
import type { Problem } from "./problem.js";
import { startFromSpectra } from "./startFromSpectra.js";
import { boxOf } from "./subsetBox.js";

/** What a search found, and how far it went. */
export interface MixSearch {
  /** Each better than all with fewer pours; fewest pours first. */
  readonly byPours: readonly FoundMix[];
  readonly subsets: number;
  readonly latticePoints: number;
  /** By how much a mix that a limit on the work cut off might score less than the best; 0 where nothing was. */
  readonly gap: number;
}

/** How far a search goes. */
export interface SearchEffort {
  /** How often the objective is made linear at another mix, for each number of pours. */
  readonly rounds: number;
  /** Subsets of one size that are looked into each time. */
  readonly mostSubsets: number;
}

export const SEARCH_EFFORT: SearchEffort = Object.freeze({ rounds: 3, mostSubsets: 400 });

/** More toners than this are cut to those that the pairs and the solution without a limit on pours speak for. */
const MOST_TONERS = 60;

/**
 * A subset is looked into while b·(1 − SHARE − CURVE·b) − FLOOR (SHARE + CURVE·b at most MOST_SHARE) is less than the best
 * score, b being its bound by the objective made linear at another mix: what that linear model may be off. Held by the
 * comparison with exhaustive search.
 */
const SHARE = 0.35;
const CURVE = 0.5;
const FLOOR = 0.005;
const MOST_SHARE = 0.8;

/**
 * The best additions of 1, 2, 3 … toners, up to as many as may be poured. For up to four, all subsets of the toners at hand are
 * ranked by NNLS on the objective made linear, and those within reach searched through by `searchSubset`; then anew, linear at the
 * best found. Beyond four by one toner more at a time (`growMix`).
 */
export function searchMixes(
  problem: Problem,
  paint: PaintCost,
  { rounds, mostSubsets }: SearchEffort = SEARCH_EFFORT,
): MixSearch {
  const { bench, goal } = problem;
  const search = createSearch(problem, paint);
  const { free, full, isWhole } = startOf(problem, search, paint);
  const byPours: FoundMix[] = [];
  let gap = isWhole ? 0 : Number.POSITIVE_INFINITY;
  let least = search.score(new Float64Array(bench.pot.length));
  const linearAt = (additions: ArrayLike<number>, weights: ArrayLike<number>): GramForm =>
    gramForm(
      search.tools.models.at(
        free,
        free.map((j) => additions[j]),
        weights,
      ),
    );

  const most = Math.min(bench.maxPours, free.length);
  for (let pours = 1; pours <= Math.min(most, LARGEST_SUBSET); pours++) {
    const budget = search.open(MOST_NODES);
    let open = Number.POSITIVE_INFINITY;
    let best: FoundMix | undefined;
    const seen = new Set<number>();
    let place: ArrayLike<number> | undefined = full;
    for (let round = 0; round < rounds && place; round++) {
      const weights = squareWeights(goal, best?.score ?? least);
      const floor = leastCounted(goal, weights);
      const bar = () => Math.max(floor, best?.score ?? least);
      const form = linearAt(place, weights);
      const subsets = bestSubsets(form, pours, mostSubsets, furthest(bar()));
      const linearMix = createLinearMix(form, pours);
      let isWithinReach = true;
      for (const { columns, squares } of subsets) {
        isWithinReach = Math.sqrt(squares) <= furthest(bar());
        if (!isWithinReach) break;
        const key = columns.reduce((sofar, c) => sofar * free.length + c, 0);
        if (seen.has(key)) continue;
        const toners = columns.map((c) => free[c]);
        const start = linearMix(columns, boxOf(bench, toners));
        if (Math.sqrt(start.squares) > furthest(bar())) continue;
        seen.add(key);
        best = search.within(toners, start.amounts, best?.score ?? least) ?? best;
      }
      if (subsets.length === mostSubsets && isWithinReach) {
        open = Math.min(open, Math.sqrt(subsets[mostSubsets - 1].squares));
      }
      const next: ArrayLike<number> | undefined = (best ?? byPours.at(-1))?.additions;
      place = next === place ? undefined : next;
    }
    gap = Math.max(gap, (best?.score ?? least) - Math.min(open, budget.open()));
    if (!best) continue;
    byPours.push(best);
    least = best.score;
  }
  for (let pours = LARGEST_SUBSET + 1; pours <= most; pours++) {
    const last = byPours.at(-1);
    const grown =
      last && growMix(problem, search, free, linearAt(last.unrounded, squareWeights(goal, last.score)), last);
    if (!grown) break;
    gap = Number.POSITIVE_INFINITY;
    byPours.push(grown);
  }
  return { byPours, ...search.counted(), gap };
}

/** The furthest bound by a linear model that is within reach of a score. */
function furthest(score: number): number {
  const bar = score + FLOOR;
  const root = (1 - SHARE) ** 2 - 4 * CURVE * bar;
  const bent = root > 0 ? (1 - SHARE - Math.sqrt(root)) / (2 * CURVE) : Number.POSITIVE_INFINITY;
  return Math.min(bent, bar / (1 - MOST_SHARE));
}

function bestSubsets(form: GramForm, size: number, most: number, bound: number): readonly SubsetFit[] {
  const search = createSubsetSearch(form);
  for (let smaller = 1; smaller < size; smaller++) search.next(1, 0);
  return search.next(most, bound * bound);
}

/** One toner more than in `last`: the three that the linear model speaks for most, each searched through. */
function growMix(
  { bench }: Problem,
  search: Search,
  free: readonly number[],
  form: GramForm,
  last: FoundMix,
): FoundMix | undefined {
  const linearMix = createLinearMix(form, last.toners.length + 1);
  const candidates = Array.from(free.keys())
    .filter((c) => !last.toners.includes(free[c]))
    .map((c) => {
      const toners = [...last.toners, free[c]];
      const columns = toners.map((j) => free.indexOf(j));
      const { amounts, squares } = linearMix(columns, boxOf(bench, toners));
      return { toners, amounts: amounts.slice(), squares };
    })
    .sort((a, b) => a.squares - b.squares)
    .slice(0, 3);
  let best: FoundMix | undefined;
  for (const { toners, amounts } of candidates) {
    best = search.within(toners, amounts, best?.score ?? last.score) ?? best;
  }
  return best;
}

/** The weights that squares are made small with: those of the aims, or what bounds the worst of them. */
function squareWeights(goal: Goal, best: number): ArrayLike<number> {
  return goal.objective === "minimax" ? evenWeights(goal, best) : goal.aims.map(({ weight }) => weight);
}

/** The problem with the weights that squares are made small with; they differ in a minimax. */
export function forSquares(problem: Problem): Problem {
  const { goal } = problem;
  if (goal.objective === "least-squares") return problem;
  const weights = evenWeights(goal, Number.POSITIVE_INFINITY);
  return { ...problem, goal: { ...goal, aims: goal.aims.map((aim, i) => ({ ...aim, weight: weights[i] })) } };
}

function canPour({ bench: { stock, room, least } }: Problem, j: number): boolean {
  return Math.min(stock[j], room) >= Math.max(least[j], LEAST_GRAMS);
}

/** Less than any scale shows. */
const LEAST_GRAMS = 1e-5;

/**
 * The toners to search among, at most `MOST_TONERS` of those that can be poured, and additions of any number of them from
 * which to look around: refined from the spectral start and, where that does not match the targets, from nothing too.
 */
function startOf(
  problem: Problem,
  { tools: { refiner } }: Search,
  paint: PaintCost,
): { readonly free: readonly number[]; readonly full: Float64Array; readonly isWhole: boolean } {
  const { bench, goal } = problem;
  const { pot } = bench;
  const all = Array.from(pot.keys()).filter((j) => canPour(problem, j));
  const full = new Float64Array(pot.length);
  if (all.length === 0) return { free: all, full, isWhole: true };
  startFromSpectra(problem, all, paint).forEach((amount, i) => {
    full[all[i]] = amount;
  });
  const rank = (j: number) => 2 * Number(full[j] > 0) + Number(pot[j] > 0);
  const free = [...all]
    .sort((a, b) => rank(b) - rank(a) || a - b)
    .slice(0, MOST_TONERS)
    .sort((a, b) => a - b);
  const box = { ...boxOf(bench, free), low: free.map(() => 0) };
  const weights = squareWeights(goal, Number.POSITIVE_INFINITY);
  const from = (start: readonly number[]) => refiner.best(free, box, start, weights);
  let found = from(free.map((j) => full[j]));
  full.fill(0);
  const isMatch = goal.aims.every(({ allowed }, i) => found.differences[i] <= allowed);
  if (!isMatch) {
    const other = from(free.map(() => 0));
    if (other.squares < found.squares) found = other;
  }
  free.forEach((j, i) => {
    full[j] = found.amounts[i];
  });
  return { free, full, isWhole: free.length === all.length };
}
