import type { Problem } from "../problem/problem.js";
import { createScore } from "../problem/score.js";
import { PAINT_IS_FREE, type PaintCost } from "../problem/terms.js";
import { weighMix } from "../problem/weighMix.js";
import type { FoundMix } from "./createSearch.js";
import { lessPaint } from "./lessPaint.js";
import { matches, mayMatch, pickMix } from "./pickMix.js";
import { type MixSearch, searchMixes } from "./searchMixes.js";

/** What the search found, and the mix picked from it; none where nothing is better than adding nothing. */
export interface PickedMix {
  readonly problem: Problem;
  /** Cost of added paint in the score of the mix picked, ΔE00 per pot mass. */
  readonly paint: PaintCost;
  readonly search: MixSearch;
  readonly picked: FoundMix | undefined;
}

/** Cost of added paint in the least-squares objective when looking for thrift, ΔE00 per pot mass. */
const THRIFT = [0.5, 0.15, 0.05];

/** Effort for the thrifty mixes, which need be good, not best. */
const EFFORT = Object.freeze({ rounds: 1, mostSubsets: 20 });

/**
 * The mix worth its pours and its paint (`pickMix`). Colour alone would pour a new pot around an old one for the last
 * hundredth of ΔE00: where paint weighs, mixes with less of it are searched for too. Where least squares leaves a target
 * out of tolerance, the worst is made small instead.
 */
export function findMix(problem: Problem): PickedMix {
  const bySquares = thriftily(problem);
  if (problem.goal.objective === "minimax" || problem.goal.aims.length === 1) return bySquares;
  if (bySquares.picked && matches(problem, bySquares.picked.additions)) return bySquares;
  const least = bySquares.search.byPours.at(-1)?.additions;
  if (!least || !mayMatch(problem, least)) return bySquares;
  const byWorst = thriftily({ ...problem, goal: { ...problem.goal, objective: "minimax" } });
  return byWorst.picked && matches(problem, byWorst.picked.additions) ? byWorst : bySquares;
}

function thriftily(problem: Problem): PickedMix {
  const { bench } = problem;
  const search = searchMixes(problem, PAINT_IS_FREE);
  const free = search.byPours.map((mix) => ({ ...mix, mix, paint: PAINT_IS_FREE }));
  const answer = (picked: (typeof free)[number] | undefined): PickedMix => ({
    problem,
    search,
    picked: picked && isWorthIt(problem, picked) ? picked.mix : undefined,
    paint: picked?.paint ?? PAINT_IS_FREE,
  });
  const closest = pickMix(problem, free);
  if (!closest) return answer(undefined);
  const weighed = free.map((mix) => weighMix(bench, mix));
  // With paint counted, no mix scores below the closest mix of as many pours without it.
  const least = Math.min(...weighed.map(({ score, pours }) => score + pours));
  if (weighMix(bench, closest).sum <= least) return answer(closest);
  const scoreOf = createScore(problem, PAINT_IS_FREE);
  const thrifty = THRIFT.flatMap((deltaE00) => {
    const paint = { deltaE00, of: "sum" } as const;
    return searchMixes(problem, paint, EFFORT).byPours.map((mix) => ({
      ...mix,
      mix,
      paint,
      score: scoreOf(mix.additions),
    }));
  });
  const smaller = free
    .filter((_, i) => weighed[i].paint > 0)
    .flatMap(({ mix }) => lessPaint(problem, mix))
    .map((mix) => ({ ...mix, mix, paint: PAINT_IS_FREE }));
  const all = [...free, ...thrifty, ...smaller];
  const byPours = bestByPours(all.map(({ mix, score }) => ({ ...mix, score })));
  return { ...answer(pickMix(problem, all)), search: { ...search, byPours } };
}

/** Of every number of pours the best, where it is better than all with fewer. */
function bestByPours(mixes: readonly FoundMix[]): readonly FoundMix[] {
  const order = [...mixes].sort((a, b) => a.toners.length - b.toners.length || a.score - b.score);
  let least = Number.POSITIVE_INFINITY;
  return order.filter((mix, i) => {
    const isBest = mix.score < least && mix.toners.length !== order[i - 1]?.toners.length;
    if (isBest) least = mix.score;
    return isBest;
  });
}

/** A mix that does not match is poured only if its sum is below that of leaving the pot as it is. */
function isWorthIt(problem: Problem, mix: Pick<FoundMix, "additions" | "score">): boolean {
  if (matches(problem, mix.additions)) return true;
  const nothing = new Float64Array(problem.bench.pot.length);
  return weighMix(problem.bench, mix).sum < createScore(problem, PAINT_IS_FREE)(nothing);
}
