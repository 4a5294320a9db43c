import { isWithin, weightedDifference } from "./goal.js";
import { keepFewPours } from "./keepFewPours.js";
import type { PaintCost } from "./objective.js";
import type { Problem } from "./problem.js";
import type { Solution } from "./refine.js";
import { after, solve } from "./solve.js";

/** Additions of any number of toners, and of no more than may be poured; neither in scale steps yet. */
export interface FoundMix {
  readonly full: Solution;
  readonly few: Solution;
}

/** More than this share of the pot again is looked at for thrift. */
const EXTRAVAGANT = 0.5;

/** What a thrifty mix must save, and what it may cost in weighted ΔE00. */
const WORTH_SAVING = 0.5;
const WORTH_MISSING = 0.15;

/**
 * The closest match; or, where that would drown the pot in new paint, a mix with less than half as much that
 * matches as well for all that can be seen. Colour alone would pour a new pot around an old one for the last
 * hundredth of ΔE00.
 */
export function findMix(problem: Problem): FoundMix {
  const closest = mixAt(problem, "nothing");
  const inPot = grams(problem.bench.pot);
  if (grams(closest.few.additions) <= EXTRAVAGANT * inPot) return closest;
  const thrifty = mixAt(problem, "sum");
  return isWorthIt(problem, thrifty.few.additions, closest.few.additions) ? thrifty : closest;
}

function mixAt(problem: Problem, paint: PaintCost): FoundMix {
  const full = solve(problem, paint);
  return { full, few: keepFewPours(problem, full, paint) };
}

function isWorthIt(problem: Problem, thrifty: Float64Array, closest: Float64Array): boolean {
  const { goal } = problem;
  const [ours, theirs] = [thrifty, closest].map((additions) => after(problem, additions).lab);
  const matchesAsWell = isWithin(goal, ours) || !isWithin(goal, theirs);
  const misses = weightedDifference(goal, ours) - weightedDifference(goal, theirs);
  return grams(thrifty) < WORTH_SAVING * grams(closest) && matchesAsWell && misses <= WORTH_MISSING;
}

function grams(amounts: Float64Array): number {
  return amounts.reduce((sum, amount) => sum + amount, 0);
}
