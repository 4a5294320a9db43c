import { after } from "../after.js";
import { isWithin } from "../goal.js";
import type { PaintCost } from "../terms.js";
import type { Problem } from "../problem.js";
import { COARSE, refine, type Solution } from "./refine.js";
import { startFromSpectra } from "./startFromSpectra.js";

/**
 * Additions of any number of toners, not yet in scale steps: refined from the spectral start and, where that does
 * not match the targets, from nothing added too; the lower objective wins.
 */
export function solve(problem: Problem, paint: PaintCost): Solution {
  const { stock, room, pot } = problem.bench;
  const free = Array.from(pot.keys()).filter((j) => Math.min(stock[j], room) > 0);
  if (free.length === 0) {
    const additions = new Float64Array(pot.length);
    return { additions, cost: Number.NaN, iterations: 0, stopReason: "nothing-to-add", converged: true };
  }
  const coarsely = { tolerances: COARSE, paint };
  const first = refine(problem, free, startFromSpectra(problem, free, paint), coarsely);
  if (isWithin(problem.goal, after(problem, first.additions).lab)) return first;
  const second = refine(problem, free, new Float64Array(free.length), coarsely);
  const better = second.cost < first.cost ? second : first;
  return { ...better, iterations: first.iterations + second.iterations };
}
