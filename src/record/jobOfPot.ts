import { checkList, checkOneOf, checkRecord } from "../core/check.js";
import { type CheckedJob, checkJob } from "../problem/job.js";
import type { TonerSet } from "../toners/tonerSet.js";
import { cardsOfPot, type JobState } from "./jobState.js";

/** A job towards the targets of `job` from the pot in use, its cards, and what an eye saw. Throws as `checkJob` does. */
export function jobOfPot(
  state: JobState,
  job: Readonly<Record<string, unknown>>,
  toners: TonerSet,
): CheckedJob {
  const targets = withComparisons(job, state.comparisons);
  return checkJob({ ...targets, toners, pot: state.pot, cards: cardsOfPot(state) });
}

/** The job of a record with what an eye saw of its targets. Throws `unknown-word` for a target that the job has not. */
function withComparisons(
  job: Readonly<Record<string, unknown>>,
  comparisons: JobState["comparisons"],
): Readonly<Record<string, unknown>> {
  if (comparisons.length === 0) return job;
  const targets = Array.from(checkList(job.targets, "targets"), (target, t) =>
    checkRecord(target, `targets[${t}]`),
  );
  for (const { target } of comparisons) {
    checkOneOf(
      target,
      "comparison.target",
      targets.map(({ name }) => String(name)),
    );
  }
  return {
    ...job,
    targets: targets.map((target) => ({
      ...target,
      comparisons: [
        ...Array.from(checkList(target.comparisons ?? [], "comparisons")),
        ...comparisons.filter((one) => one.target === target.name).map(({ comparison }) => comparison),
      ],
    })),
  };
}
