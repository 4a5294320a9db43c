import { after } from "../problem/after.js";
import { isWithin } from "../problem/goal.js";
import type { Problem } from "../problem/problem.js";
import type { PaintCost } from "../problem/terms.js";
import { COARSE, refine, type Solution } from "./refine.js";
import { startFromSpectra } from "./startFromSpectra.js";

/**
 * Additions of any number of toners, not yet in scale steps: refined from the spectral start and, where that does
 * not match the targets, from nothing added too; the lower objective wins.
 */
export function solve(problem: Problem, paint: PaintCost): Solution {
  const { stock, room, pot } = problem.bench;
  const all = Array.from(pot.keys()).filter((j) => Math.min(stock[j], room) > 0);
  if (all.length === 0) {
    const additions = new Float64Array(pot.length);
    return { additions, cost: Number.NaN, iterations: 0, stopReason: "nothing-to-add", converged: true };
  }
  const { free, start } = startOfFew(problem, all, paint);
  const coarsely = { tolerances: COARSE, paint };
  const first = refine(problem, free, start, coarsely);
  if (isWithin(problem.goal, after(problem, first.additions).lab)) return first;
  const second = refine(problem, free, new Float64Array(free.length), coarsely);
  const better = second.cost < first.cost ? second : first;
  return { ...better, iterations: first.iterations + second.iterations };
}

/** More toners than this are not refined together: those that the spectra call for most, then those of the pot. */
const MOST_REFINED = 24;

function startOfFew(
  problem: Problem,
  all: readonly number[],
  paint: PaintCost,
): { readonly free: readonly number[]; readonly start: Float64Array } {
  const start = startFromSpectra(problem, all, paint);
  if (all.length <= MOST_REFINED) return { free: all, start };
  const { pot } = problem.bench;
  const places = Array.from(all.keys())
    .sort((a, b) => start[b] - start[a] || Number(pot[all[b]] > 0) - Number(pot[all[a]] > 0) || a - b)
    .slice(0, MOST_REFINED)
    .sort((a, b) => a - b);
  return { free: places.map((i) => all[i]), start: Float64Array.from(places, (i) => start[i]) };
}
