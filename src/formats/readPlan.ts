import { checkText } from "../core/check.js";
import { checkPlanJob, type PlanJob } from "../planning/holdBack/planJob.js";
import { checkHeader } from "./header.js";
import type { FindToners } from "./jobFile.js";
import { parseJson } from "./json.js";

/**
 * A plan's job from the text of a `masstone/plan` file; its toners stand in it or are named there and brought by
 * `findToners`. Throws InputError with the place in the file.
 */
export function readPlan(text: string, findToners: FindToners): PlanJob {
  const record = checkHeader(parseJson(text), "masstone/plan");
  if (typeof record.toners !== "string") return checkPlanJob(record);
  return checkPlanJob({ ...record, toners: findToners(checkText(record.toners, "toners")) });
}
