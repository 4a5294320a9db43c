import { isReachable } from "../forecast/reachable.js";
import type { Problem } from "../problem/problem.js";
import { withRisk } from "../problem/withRisk.js";
import { findMix, type PickedMix } from "../search/findMix.js";
import { matches } from "../search/pickMix.js";

/** Weight of the risk term where its full weight would leave a target out of tolerance. */
const SHARES = [0.1, 0];

/** Share of the work left for the search with the full risk term; the rest is for those with less of it. */
const CAREFUL_WORK = 0.5;

/**
 * The mix of least expected loss. Where its risk term alone keeps it out of tolerance, the mix of least risk that is
 * within: nothing is out of reach because it is risky.
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
