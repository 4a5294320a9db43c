import { isWithin, weightedDifference } from "./goal.js";
import { keepFewPours } from "./keepFewPours.js";
import { PAINT_IS_FREE, type PaintCost } from "./objective.js";
import type { Problem } from "./problem.js";
import type { Solution } from "./refine.js";
import { roundToScale } from "./roundToScale.js";
import { after, solve } from "./solve.js";

/** Additions of any number of toners, and of no more than may be poured; neither in scale steps yet. */
export interface FoundMix {
  readonly full: Solution;
  readonly few: Solution;
}

/** More than this share of the pot again is looked at for thrift. */
const EXTRAVAGANT = 0.5;

/** What paint may count for, thriftiest first, in ΔE00 for as much again as the pot holds. */
const THRIFT = [0.5, 0.15, 0.05];

/** What a thrifty mix must save, and what it may cost in weighted ΔE00. */
const WORTH_SAVING = 0.5;
const WORTH_MISSING = 0.3;

/**
 * The closest match; or, where that would drown the pot in new paint, the thriftiest mix with less than half as
 * much that matches nearly as well. Colour alone would pour a new pot around an old one for the last hundredth of
 * ΔE00.
 */
export function findMix(problem: Problem): FoundMix {
  const closest = mixAt(problem, PAINT_IS_FREE);
  if (grams(closest.few.additions) <= EXTRAVAGANT * grams(problem.bench.pot)) return closest;
  for (const deltaE00 of THRIFT) {
    const thrifty = mixAt(problem, { deltaE00, of: "sum" });
    if (isWorthIt(problem, thrifty.few.additions, closest.few.additions)) return thrifty;
  }
  return closest;
}

function mixAt(problem: Problem, paint: PaintCost): FoundMix {
  const full = solve(problem, paint);
  return { full, few: keepFewPours(problem, full, paint) };
}

function isWorthIt(problem: Problem, thrifty: Float64Array, closest: Float64Array): boolean {
  const { goal } = problem;
  const [ours, theirs] = [thrifty, closest].map(
    (additions) => after(problem, roundToScale(problem, additions)).lab,
  );
  const matchesAsWell = isWithin(goal, ours) || !isWithin(goal, theirs);
  const misses = weightedDifference(goal, ours) - weightedDifference(goal, theirs);
  return grams(thrifty) < WORTH_SAVING * grams(closest) && matchesAsWell && misses <= WORTH_MISSING;
}

function grams(amounts: Float64Array): number {
  return amounts.reduce((sum, amount) => sum + amount, 0);
}
