import type { Problem } from "../problem/problem.js";
import { createScore } from "../problem/score.js";
import { PAINT_IS_FREE, type PaintCost } from "../problem/terms.js";
import type { FoundMix } from "./createSearch.js";
import { mayMatch, pickMix } from "./pickMix.js";
import { FINE, refine, type Solution } from "./refine.js";
import { forSquares, searchMixes } from "./searchMixes.js";
import { solve } from "./solve.js";

/** The additions of the answer, and how the last refinement ended. */
export interface Polished extends Pick<Solution, "stopReason" | "iterations" | "converged"> {
  readonly additions: Float64Array;
  readonly unrounded: Float64Array;
}

/**
 * The unrounded grams of a mix by Levenberg–Marquardt, which are the answer itself where nothing is rounded; of a minimax
 * they stay as found, since least squares would lead away from them.
 */
export function polish(problem: Problem, mix: FoundMix | undefined, paint: PaintCost): Polished {
  const { bench, goal } = problem;
  if (!mix) {
    const nothing = new Float64Array(bench.pot.length);
    const { stopReason, iterations, converged } = solve(forSquares(problem), paint);
    return { additions: nothing, unrounded: nothing, stopReason, iterations, converged };
  }
  const isRounded = mix.toners.some((j) => bench.unit[j] > 0);
  const refined = refine(
    forSquares(problem),
    mix.toners,
    mix.toners.map((j) => mix.unrounded[j]),
    { tolerances: FINE, paint, ...(!isRounded && { least: (j: number) => bench.least[j] }) },
  );
  const { stopReason, converged, iterations } = refined;
  const ended = { stopReason, iterations, converged };
  if (goal.objective === "minimax") return { ...mix, ...ended };
  if (isRounded) return { additions: mix.additions, unrounded: refined.additions, ...ended };
  const scoreOf = createScore(problem, PAINT_IS_FREE);
  const { additions } =
    pickMix(
      problem,
      [refined, mix].map((one) => ({ additions: one.additions, score: scoreOf(one.additions) })),
    ) ?? mix;
  return { additions, unrounded: additions, ...ended };
}

/**
 * The best additions of no more toners than may be poured, were nothing rounded: is it the scale that is in the way? Those of
 * any number of toners where not even they may match.
 */
export function unroundedBest(problem: Problem, mix: FoundMix | undefined): Pick<Solution, "additions"> {
  const { bench } = problem;
  const none = bench.unit.map(() => 0);
  const isSmooth = [...bench.unit, ...bench.least].every((grams) => grams === 0);
  if (isSmooth) return { additions: mix?.additions ?? none };
  const smooth = { ...problem, bench: { ...bench, unit: none, least: none } };
  const { additions } = solve(forSquares(smooth), PAINT_IS_FREE);
  if (!mayMatch(smooth, additions)) return { additions };
  const { byPours } = searchMixes(smooth, PAINT_IS_FREE, { rounds: 2, mostSubsets: 40 });
  return { additions: byPours.at(-1)?.additions ?? none };
}
