import { extended } from "../core/shape/extended.js";
import { nameOr } from "../core/shape/nameOr.js";
import { type CheckedPlanJob, checkPlanJob, PLAN_JOB, type PlanJob } from "../planning/holdBack/planJob.js";
import { TONER_SET, type TonerSet } from "../toners/tonerSet.js";
import { checkHeader } from "./header.js";
import type { FindToners } from "./jobFile.js";
import { parseJson } from "./json.js";

/** What `hold-back` reads. */
export interface PlanFile extends Omit<PlanJob, "toners"> {
  /** Name of a toner file beside the plan, or the toners themselves. */
  readonly toners: string | TonerSet;
}

/** The file of a plan. */
export const PLAN_FILE = extended<
  Omit<CheckedPlanJob, "toners"> & Pick<PlanFile, "toners">,
  PlanFile,
  CheckedPlanJob
>(PLAN_JOB, { toners: nameOr(TONER_SET) });

/**
 * A plan's job from the text of a `masstone/plan` file; its toners stand in it or are named there and brought by
 * `findToners`. Throws InputError with the place in the file.
 */
export function readPlan(text: string, findToners: FindToners): PlanJob {
  const plan = PLAN_FILE.check(checkHeader(parseJson(text), "masstone/plan"), "");
  return checkPlanJob({
    ...plan,
    toners: typeof plan.toners === "string" ? findToners(plan.toners) : plan.toners,
  });
}
