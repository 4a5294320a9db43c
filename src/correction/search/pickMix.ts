import { after } from "../after.js";
import { isWithin } from "../goal.js";
import type { Problem } from "../problem.js";
import type { FoundMix } from "./createSearch.js";

/**
 * The mix worth pouring among the best of each number of pours: the fewest that score no more than the best one does and
 * what a pour is worth for each pour that they save. Where some are within tolerance, only those are looked at.
 */
export function pickMix(problem: Problem, byPours: readonly FoundMix[]): FoundMix | undefined {
  const matching = byPours.filter(({ additions }) => matches(problem, additions));
  const among = matching.length > 0 ? matching : byPours;
  const best = among.at(-1);
  return among.find(
    ({ toners, score }) =>
      best && score <= best.score + problem.bench.pourWorth * (best.toners.length - toners.length),
  );
}

/** Whether every target is within tolerance after these additions. */
export function matches(problem: Problem, additions: ArrayLike<number>): boolean {
  return isWithin(problem.goal, after(problem, additions).lab);
}
