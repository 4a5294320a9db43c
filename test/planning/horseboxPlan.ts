import { readFileSync } from "node:fs";
import { readPlan } from "../../src/formats/readPlan.js";
import { type FadeFit, fitFade } from "../../src/planning/fade/fitFade.js";
import type { PlanJob } from "../../src/planning/holdBack/planJob.js";
import { checkPlanJob } from "../../src/planning/holdBack/planJob.js";
import { preparePlan } from "../../src/planning/holdBack/planProblem.js";
import { horseboxToners } from "../fixtures/horsebox.js";

/** The shipped example: two formulas, three faded panels. */
export const horseboxPlan = (): PlanJob =>
  readPlan(readFileSync(new URL("../../examples/horsebox/plan.json", import.meta.url), "utf8"), () =>
    horseboxToners(),
  );

/** What is believed of the panels of a plan, one of its formulas being theirs. */
export function fadeFitOf(job: PlanJob, formula = 0): FadeFit {
  const checked = checkPlanJob(job);
  const plan = preparePlan(checked);
  return fitFade(plan, plan.formulas[formula], checked);
}
