import { after } from "../after.js";
import { colourScore, weightedDifference } from "../goal.js";
import { PAINT_IS_FREE, type PaintCost } from "../terms.js";
import { gramsOf } from "../poured.js";
import type { Problem } from "../problem.js";
import type { FoundMix } from "./createSearch.js";
import { matches, pickMix } from "./pickMix.js";
import { forSquares, type MixSearch, searchMixes } from "./searchMixes.js";
import { solve } from "./solve.js";

/** What the search found, and the mix picked from it; none where nothing is better than adding nothing. */
export interface PickedMix {
  readonly problem: Problem;
  /** What paint counts for in the score of the mix picked. */
  readonly paint: PaintCost;
  readonly search: MixSearch;
  readonly picked: FoundMix | undefined;
}

/** More than this share of the pot again is looked at for thrift. */
const EXTRAVAGANT = 0.5;

/** What paint may count for, thriftiest first, in ΔE00 for as much again as the pot holds. */
const THRIFT = [0.5, 0.15, 0.05];

/** A thrifty mix is to be good, not proved best. */
const EFFORT = Object.freeze({ rounds: 1, mostSubsets: 20 });

/** What a thrifty mix must save, and what it may cost in ΔE00. */
const WORTH_SAVING = 0.5;
/** Few pours may take less paint than many: the mix of any number is asked for less. */
const LIKELY_SAVING = 0.75;
const WORTH_MISSING = 0.3;

/**
 * The closest match worth its pours; or, where that would drown the pot in new paint, the thriftiest mix with less than
 * half as much that matches nearly as well. Colour alone would pour a new pot around an old one for the last
 * hundredth of ΔE00. Where least squares leaves a target out of tolerance, the worst is made small instead.
 */
export function findMix(problem: Problem): PickedMix {
  const bySquares = thriftily(problem);
  if (problem.goal.objective === "minimax" || problem.goal.aims.length === 1) return bySquares;
  if (bySquares.picked && matches(problem, bySquares.picked.additions)) return bySquares;
  // With every difference within its allowance the squares would be no more than this.
  const most = problem.goal.aims.reduce(
    (sum, { weight, allowed }) => sum + (weight > 0 ? weight * allowed ** 2 : 0),
    0,
  );
  const least = bySquares.search.byPours.at(-1)?.additions;
  if (!least || weightedDifference(problem.goal, after(problem, least).lab) ** 2 > most) return bySquares;
  const byWorst = thriftily({ ...problem, goal: { ...problem.goal, objective: "minimax" } });
  return byWorst.picked && matches(problem, byWorst.picked.additions) ? byWorst : bySquares;
}

function thriftily(problem: Problem): PickedMix {
  const search = searchMixes(problem, PAINT_IS_FREE);
  const closest = pickMix(problem, search.byPours);
  const inPot = gramsOf(problem.bench.pot);
  if (!closest || gramsOf(closest.additions) <= EXTRAVAGANT * inPot) {
    return { problem, paint: PAINT_IS_FREE, search, picked: closest };
  }
  for (const deltaE00 of THRIFT) {
    const paint = { deltaE00, of: "sum" } as const;
    if (!saves(problem, solve(forSquares(problem), paint), closest, LIKELY_SAVING)) continue;
    const thrifty = pickMix(problem, searchMixes(problem, paint, EFFORT).byPours);
    if (thrifty && isWorthIt(problem, thrifty, closest)) return { problem, paint, search, picked: thrifty };
  }
  return { problem, paint: PAINT_IS_FREE, search, picked: closest };
}

function isWorthIt(problem: Problem, thrifty: FoundMix, closest: FoundMix): boolean {
  const matchesAsWell = matches(problem, thrifty.additions) || !matches(problem, closest.additions);
  return matchesAsWell && saves(problem, thrifty, closest);
}

/**
 * Whether additions take much less paint than the closest mix and come nearly as near. Asked first of a mix of any
 * number of toners, not rounded: where that does not save, no few pours are searched for.
 */
function saves(
  problem: Problem,
  thrifty: Pick<FoundMix, "additions">,
  closest: FoundMix,
  share = WORTH_SAVING,
): boolean {
  const { goal } = problem;
  const ours = after(problem, thrifty.additions).lab;
  const theirs = after(problem, closest.additions).lab;
  return (
    gramsOf(thrifty.additions) < share * gramsOf(closest.additions) &&
    colourScore(goal, ours) - colourScore(goal, theirs) <= WORTH_MISSING
  );
}
