import { isReachable } from "../forecast/reachable.js";
import type { Problem } from "../problem/problem.js";
import { withRisk } from "../problem/withRisk.js";
import { findMix, type PickedMix } from "../search/findMix.js";
import { matches } from "../search/pickMix.js";

/** Weight of the risk term where its full weight would leave a target out of tolerance. */
const SHARES = [0.1, 0];

/** Of the work left, what the search with all of the doubt may take; the rest is for those with less of it. */
const CAREFUL_WORK = 0.5;

/**
 * The mix of least expected loss. Where that one stays out of tolerance for doubt alone, the least daring one that does
 * not: nothing is out of reach because it is risky.
 */
export function findMatch(problem: Problem): PickedMix & { readonly riskShare: number } {
  const isMatch = ({ picked }: PickedMix) => picked !== undefined && matches(problem, picked.additions);
  const careful = { ...findMix({ ...problem, work: problem.work.share(CAREFUL_WORK) }), riskShare: 1 };
  if (isMatch(careful) || !isReachable(problem)) return careful;
  for (const riskShare of SHARES) {
    const daring = { ...findMix(withRisk(problem, riskShare)), riskShare };
    if (isMatch(daring)) return daring;
  }
  return careful;
}
