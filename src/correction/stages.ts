import type { Work } from "../core/createWork.js";
import type { Problem } from "../problem/problem.js";

/** Share of the work left that each part may use; what it leaves goes to the parts after it. */
const SHARES = { search: 0.5, alternatives: 0.4, obstacles: 0.3, wayOut: 0.6, forecast: 1 };

const NAMES: Readonly<Record<Stage, string>> = {
  search: "the search for a better mix (search.gapDeltaE00)",
  alternatives: "alternatives, reasons and the finer scale",
  obstacles: "what stands in the way",
  wayOut: "the way out",
  forecast: "the draws of the forecast",
};

/** A part of a correction with a budget of its own. */
export type Stage = keyof typeof SHARES;

/** Runs a part of a correction on a problem with its share of the work, and notes whether it was spent. */
export type Stages = <T>(stage: Stage, problem: Problem, run: (part: Problem) => T) => T;

export function createStages(work: Work, cut: Stage[]): Stages {
  return (stage, problem, run) => {
    const own = work.share(SHARES[stage]);
    const result = run({ ...problem, work: own });
    if (own.isSpent()) cut.push(stage);
    return result;
  };
}

/** The parts of a correction that were cut, in words. */
export function namesOf(cut: readonly Stage[]): readonly string[] {
  return cut.map((stage) => NAMES[stage]);
}
