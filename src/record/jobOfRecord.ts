import { checkPlanJob } from "../planning/holdBack/planJob.js";
import type { CheckedJob } from "../problem/job.js";
import type { TonerSet } from "../toners/tonerSet.js";
import { nextStage, type Stage } from "./asked.js";
import { jobOfPot } from "./jobOfPot.js";
import type { JobState } from "./jobState.js";

/** The panels that are painted next, where there is a plan. */
export function stageOf({ stages, sprayed }: JobState): Stage | undefined {
  return nextStage(stages, sprayed);
}

/** What the pot in use is to match: the targets of the job, or of a plan the panels that are painted next. */
export function targetsOf(state: JobState): readonly string[] {
  if (state.plan !== undefined) return stageOf(state)?.panels ?? [];
  const { targets } = state.job ?? {};
  return Array.isArray(targets) ? targets.map((target) => String(target?.name)) : [];
}

/** The job of the pot in use: its cards, what an eye saw, and what it is to match. Throws as `checkJob` does. */
export function jobOfRecord(state: JobState, toners: TonerSet): CheckedJob {
  const { job, plan, comparisons } = state;
  if (job) return jobOfPot(state, job, toners);
  const { viewing, limits, tolerance, belief, prices, panels } = checkPlanJob({ ...plan, toners });
  const names = targetsOf(state);
  const targets = panels.filter(({ name }) => names.includes(name)).map(({ share: _, ...panel }) => panel);
  const seen = comparisons.filter(({ target }) => names.includes(target));
  return jobOfPot(
    { ...state, comparisons: seen },
    { targets, viewing, limits, tolerance, belief, prices },
    toners,
  );
}
