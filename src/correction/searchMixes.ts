import { createSubsetSearch, LARGEST_SUBSET, type SubsetFit } from "../numeric/createSubsetSearch.js";
import { createSearch, type FoundMix, MOST_NODES, type Search } from "./createSearch.js";
import { evenWeights } from "./evenWeights.js";
import { keepFewPours } from "./keepFewPours.js";
import { fitOf, linearAt, startOf } from "./linearAt.js";
import { gramForm, type LinearObjective } from "./linearise.js";
import type { PaintCost } from "./objective.js";
import { poured } from "./poured.js";
import type { Problem } from "./problem.js";
import type { Solution } from "./refine.js";
import { roundToScale } from "./roundToScale.js";
import { solve } from "./solve.js";

/** What a search found, and how far it went. */
export interface MixSearch {
  /** Additions of any number of toners, not in scale steps. */
  readonly full: Solution;
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
 * A subset is looked into while b·(1 − SHARE − CURVE·b) − FLOOR (SHARE + CURVE·b at most MOST_SHARE) is less than the best score, b being its bound by the
 * objective made linear at another mix: what that linear model may be off. Held by the comparison with exhaustive search.
 */
const SHARE = 0.3;
const CURVE = 0.05;
const FLOOR = 0.05;
const MOST_SHARE = 0.7;

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
  const { bench } = problem;
  const solved = forSquares(problem);
  const full = solve(solved, paint);
  const search = createSearch(problem, paint);
  const free = pourable(problem, full.additions);
  const at = (additions: Float64Array) => linearAt(solved, free, additions, paint);
  const start = at(full.additions);
  const smallest = createSubsetSearch(gramForm(start));
  const byPours: FoundMix[] = [];
  let gap = free.length === countPourable(problem) ? 0 : Number.POSITIVE_INFINITY;
  let least = search.score(new Float64Array(bench.pot.length));

  const most = Math.min(bench.maxPours, free.length);
  for (let pours = 1; pours <= Math.min(most, LARGEST_SUBSET); pours++) {
    const budget = search.open(MOST_NODES);
    let open = Number.POSITIVE_INFINITY;
    let best = atOnce(solved, full, { pours, paint, score: search.score, bar: least });
    const bar = () => best?.score ?? least;
    const seen = new Set<string>();
    let linear = start;
    let subsets: readonly SubsetFit[] = smallest.next(mostSubsets);
    for (let round = 0; round < rounds; round++) {
      const before = best;
      const wasLast = subsets.length < mostSubsets;
      let isWithinReach = true;
      for (const { columns, squares } of subsets) {
        const bound = Math.sqrt(squares);
        isWithinReach = isWithin(bound, bar());
        if (!isWithinReach) break;
        const key = columns.join();
        if (seen.has(key)) continue;
        seen.add(key);
        best =
          search.within(
            columns.map((c) => free[c]),
            startOf(linear, columns),
            bar(),
          ) ?? best;
      }
      if (!wasLast && isWithinReach) open = Math.min(open, Math.sqrt(subsets[mostSubsets - 1].squares));
      if (!best || (best === before && round > 0)) break;
      linear = at(best.additions);
      const again = createSubsetSearch(gramForm(linear));
      for (let size = 1; size < pours; size++) again.next(1);
      subsets = again.next(mostSubsets);
    }
    gap = Math.max(gap, bar() - Math.min(open, budget.open()));
    if (!best) continue;
    byPours.push(best);
    least = best.score;
  }
  for (let pours = LARGEST_SUBSET + 1; pours <= most; pours++) {
    const last = byPours.at(-1);
    const grown = last && growMix(search, free, at(last.unrounded), last);
    if (!grown) break;
    gap = Number.POSITIVE_INFINITY;
    byPours.push(grown);
  }
  return { full, byPours, ...search.counted(), gap };
}

/**
 * A good mix of that many pours without any search, so that there is a bar to beat, and an answer where the work allowed
 * does not go far enough: pours dropped one by one from the full solution, then the best corner of the scale's cell.
 */
function atOnce(
  problem: Problem,
  full: Solution,
  { pours, paint, score, bar }: { pours: number; paint: PaintCost; score: Search["score"]; bar: number },
): FoundMix | undefined {
  const { bench } = problem;
  const fewer = { ...problem, bench: { ...bench, maxPours: pours } };
  const unrounded = keepFewPours(fewer, full, paint).additions;
  const additions = roundToScale(fewer, unrounded);
  const toners = poured(additions);
  const isAllowed =
    toners.length === pours && toners.every((j) => additions[j] >= bench.least[j] - LEAST_GRAMS);
  if (!isAllowed) return undefined;
  const found = { toners, additions, score: score(additions), unrounded };
  return found.score < bar ? found : undefined;
}

function isWithin(bound: number, bar: number): boolean {
  return bound * (1 - Math.min(MOST_SHARE, SHARE + CURVE * bound)) - FLOOR <= bar;
}

/** One toner more than in `last`: the three that the linear model speaks for most, each searched through. */
function growMix(
  search: Search,
  free: readonly number[],
  linear: LinearObjective,
  last: FoundMix,
): FoundMix | undefined {
  const chosen = last.toners.map((j) => free.indexOf(j));
  const candidates = Array.from(free.keys())
    .filter((c) => !chosen.includes(c))
    .map((c) => fitOf(linear, [...chosen, c]))
    .sort((a, b) => a.squares - b.squares)
    .slice(0, 3);
  let best: FoundMix | undefined;
  for (const { columns, x } of candidates) {
    best =
      search.within(
        columns.map((c) => free[c]),
        x,
        best?.score ?? last.score,
      ) ?? best;
  }
  return best;
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

function countPourable(problem: Problem): number {
  return problem.bench.pot.reduce((count, _, j) => count + Number(canPour(problem, j)), 0);
}

/** Toners of which stock and cup allow a pour; of very many those in the unlimited solution, then those in the pot. */
function pourable(problem: Problem, full: Float64Array): readonly number[] {
  const { pot } = problem.bench;
  const all = Array.from(pot.keys()).filter((j) => canPour(problem, j));
  if (all.length <= MOST_TONERS) return all;
  const rank = (j: number) => 2 * Number(full[j] > 0) + Number(pot[j] > 0);
  return all
    .sort((a, b) => rank(b) - rank(a) || a - b)
    .slice(0, MOST_TONERS)
    .sort((a, b) => a - b);
}
