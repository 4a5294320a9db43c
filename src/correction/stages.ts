import type { Work } from "../core/createWork.js";
import type { Warning } from "../core/warning.js";
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

/** The warning that names the parts for which the budget of work was too small. */
export function workWarnings(cut: readonly Stage[]): readonly Warning[] {
  if (cut.length === 0) return [];
  const parts = cut.map((stage) => NAMES[stage]).join("; ");
  return [
    {
      code: "work-limit",
      message: `the work allowed was spent, or the host asked to stop, before all was looked at of: ${parts}`,
    },
  ];
}
