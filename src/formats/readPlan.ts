import { extended } from "../core/shape/extended.js";
import { nameOr } from "../core/shape/nameOr.js";
import { optional } from "../core/shape/optional.js";
import { checkPlanJob, PLAN_JOB, type PlanByItself, type PlanJob } from "../planning/holdBack/planJob.js";
import { TONER_SET, type TonerSet } from "../toners/tonerSet.js";
import { checkHeader } from "./header.js";
import type { FindToners } from "./jobFile.js";
import { parseJson } from "./json.js";
import { FILES_OF_READINGS, type FileOfReadings, type FindText } from "./readFiles.js";
import { noTexts, withReadings } from "./withReadings.js";

/** What `hold-back` reads. */
export interface PlanFile extends Omit<PlanJob, "toners"> {
  /** Name of a toner file beside the plan, or the toners themselves. */
  readonly toners: string | TonerSet;
  /** Files of readings beside this one: of the panels and formulas that have no `readings` of their own. */
  readonly files?: readonly FileOfReadings[];
}

/** The file of a plan. */
export const PLAN_FILE = extended<
  Omit<PlanByItself, "toners"> & Pick<PlanFile, "toners" | "files">,
  PlanFile,
  PlanByItself
>(PLAN_JOB, { toners: nameOr(TONER_SET), files: optional(FILES_OF_READINGS) });

/**
 * A plan's job from the text of a `masstone/plan` file. Its toners stand in the file itself or are named there and brought
 * by `findToners`; so are its readings and `findText`. Throws InputError with the place in the file.
 */
export function readPlan(text: string, findToners: FindToners, findText: FindText = noTexts): PlanJob {
  const read = withReadings(checkHeader(parseJson(text), "masstone/plan"), findText);
  const { files: _, ...plan } = PLAN_FILE.check(read, "");
  return checkPlanJob({
    ...plan,
    toners: typeof plan.toners === "string" ? findToners(plan.toners) : plan.toners,
  });
}
