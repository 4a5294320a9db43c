import type { Work } from "../core/createWork.js";
import { sum } from "../core/sum.js";
import {
  createSubsetSearch,
  type GramForm,
  LARGEST_SUBSET,
  type SubsetFit,
} from "../numeric/programmes/createSubsetSearch.js";
import type { Goal } from "../problem/goal.js";
import { poured } from "../problem/poured.js";
import type { Problem } from "../problem/problem.js";
import { formOfPours, type PaintCost } from "../problem/terms.js";
import { FREE_SHARE } from "../problem/weighMix.js";
import { createSearch, type FoundMix, MOST_NODES, type Search } from "./createSearch.js";
import { evenWeights, leastCounted } from "./evenWeights.js";
import { furthest, isInReach, leastShare } from "./furthest.js";
import { keepFewPours } from "./keepFewPours.js";
import { createLinearMix, gramForm, shareOfForm } from "./linearMix.js";
import { SLIGHT } from "./misjudged.js";
import { countPourable, LEAST_GRAMS, pourable } from "./pourable.js";
import type { Solution } from "./refine.js";
import { roundToScale } from "./roundToScale.js";
import { solve } from "./solve.js";
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

/**
 * What linear models and two starts for a set of toners may leave, in ΔE00 and as a share of the score (more in a vast
 * cup: `SLIGHT`): no proof, but held by comparison with exhaustive search and with many starts.
 */
const UNPROVED = 0.002;
const IN_VAST = 0.01;

/** Each number of pours may use at most this share of the work left, so that some remains for the next. */
const LEVEL_SHARE = 0.4;

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
  const { bench, goal, work } = problem;
  const search = createSearch(problem, paint);
  const full = solve(forSquares(problem), paint);
  const free = pourable(problem, full.additions);
  const byPours: FoundMix[] = [];
  let gap = free.length === countPourable(problem) ? 0 : Number.POSITIVE_INFINITY;
  let least = search.score(new Float64Array(bench.pot.length));
  const linearAt = (additions: ArrayLike<number>, weights: ArrayLike<number>): GramForm =>
    gramForm(
      search.tools.models.at(
        free,
        free.map((j) => additions[j]),
        weights,
      ),
    );

  const ofPours = formOfPours(problem, paint);
  const exact = new Float64Array(free.length ** 2).map(
    (_, i) => ofPours[free[Math.floor(i / free.length)] * bench.pot.length + free[i % free.length]],
  );

  const isVast = bench.room > FREE_SHARE * sum(bench.pot);
  const most = Math.min(bench.maxPours, free.length);
  for (let pours = 1; pours <= Math.min(most, LARGEST_SUBSET); pours++) {
    if (work.isSpent()) {
      gap = Math.max(gap, least);
      break;
    }
    const budget = search.open(MOST_NODES);
    const stopAt = work.done() + LEVEL_SHARE * work.left();
    const isSpent = () => work.isSpent() || work.done() >= stopAt;
    let open = Number.POSITIVE_INFINITY;
    let best = atOnce(forSquares(problem), full, { pours, paint, score: search.score, bar: least });
    const seen = new Set<number>();
    let place: ArrayLike<number> | undefined = full.additions;
    for (let round = 0; round < rounds && place && !isSpent(); round++) {
      const weights = squareWeights(goal, best?.score ?? least);
      const floor = leastCounted(goal, weights);
      const bar = () => Math.max(floor, best?.score ?? least);
      const sight = () => furthest(bar(), isVast);
      const form = linearAt(place, weights);
      const subsets = bestSubsets(form, pours, { most: mostSubsets, below: sight(), work });
      if (!subsets) {
        open = 0;
        break;
      }
      const linearMix = createLinearMix(form, pours);
      const leastMix = createLinearMix(shareOfForm(form, exact, leastShare(bar(), isVast)), pours);
      let isWithinReach = true;
      for (const { columns, squares } of subsets) {
        isWithinReach = Math.sqrt(squares) <= sight();
        if (!isWithinReach || isSpent()) break;
        const key = columns.reduce((sofar, c) => sofar * free.length + c, 0);
        if (seen.has(key)) continue;
        const toners = columns.map((c) => free[c]);
        const box = boxOf(bench, toners);
        if (!isInReach(leastMix(columns, box).squares, bar())) continue;
        const start = linearMix(columns, box);
        seen.add(key);
        best = search.within(toners, start.amounts, best?.score ?? least) ?? best;
      }
      if (subsets.length === mostSubsets && isWithinReach) {
        open = Math.min(open, Math.sqrt(subsets[mostSubsets - 1].squares));
      }
      const next: ArrayLike<number> | undefined = (best ?? byPours.at(-1))?.additions;
      place = next === place ? undefined : next;
    }
    // Mixes cut off by the budget of work may have any score.
    if (isSpent()) open = 0;
    const score = best?.score ?? least;
    gap = Math.max(gap, score - Math.min(open, budget.open()));
    gap = Math.max(gap, Math.min(score, isVast ? IN_VAST + SLIGHT * score : UNPROVED + UNPROVED * score));
    if (!best) continue;
    byPours.push(best);
    least = best.score;
  }
  for (let pours = LARGEST_SUBSET + 1; pours <= most && work.spend(pours ** 4); pours++) {
    const last = byPours.at(-1);
    const grown =
      last && growMix(problem, search, free, linearAt(last.unrounded, squareWeights(goal, last.score)), last);
    if (!grown) break;
    gap = Number.POSITIVE_INFINITY;
    byPours.push(grown);
  }
  return { byPours, ...search.counted(), gap };
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

/** Undefined where the work left does not suffice to go through all of them. */
function bestSubsets(
  form: GramForm,
  size: number,
  { most, below, work }: { readonly most: number; readonly below: number; readonly work: Work },
): readonly SubsetFit[] | undefined {
  const search = createSubsetSearch(form, work.left() / SUBSET_STEPS);
  for (let smaller = 1; smaller < size; smaller++) search.next(1, 0);
  const found = search.next(most, below * below);
  work.spend(SUBSET_STEPS * search.visited());
  return found;
}

/** Steps of work in one subset that is gone through. */
const SUBSET_STEPS = 30;

/** Adds one toner to `last`: tries the three that the linear model rates best. */
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
