import { readFileSync } from "node:fs";
import { readPlan } from "../../src/formats/readPlan.js";
import { createFadeModel, type FadeModel } from "../../src/planning/fade/fadeModel.js";
import type { PlanJob } from "../../src/planning/holdBack/planJob.js";
import { checkPlanJob } from "../../src/planning/holdBack/planJob.js";
import { preparePlan } from "../../src/planning/holdBack/planProblem.js";
import { horseboxToners } from "../fixtures/horsebox.js";

/** The shipped example: two formulas, three faded panels. */
export const horseboxPlan = (): PlanJob =>
  readPlan(readFileSync(new URL("../../examples/horsebox/plan.json", import.meta.url), "utf8"), () =>
    horseboxToners(),
  );

/** The fade model of one formula of a plan. */
export function fadeModelOf(job: PlanJob, formula = 0): FadeModel {
  const checked = checkPlanJob(job);
  const { formulas, panels } = preparePlan(checked);
  return createFadeModel(formulas[formula], panels, checked);
}
