import type { Belief } from "../../belief/belief.js";
import { flakeTilt } from "../../belief/flakeTilt.js";
import { after } from "../after.js";
import { isWithin } from "../goal.js";
import type { Problem } from "../problem.js";
import type { SprayDiagnosis } from "./diagnoseSpray.js";
import { withTilt } from "./withTilt.js";

/** A problem with the diagnosis of its spraying. */
interface Diagnosed {
  readonly problem: Problem;
  readonly belief: Belief;
  readonly spray?: SprayDiagnosis;
}

/** The problem of the next card: sprayed as the panels where their flakes lie otherwise and the last card is not within tolerance. */
export function asSprayed({ problem, belief, spray }: Diagnosed): Problem {
  const { model, goal, bench } = problem;
  if (spray?.verdict !== "respray" || isWithin(goal, after(problem, new Float64Array(bench.pot.length)).lab))
    return problem;
  return { ...problem, model: withTilt(model, flakeTilt(belief), spray.tilt ?? 0) };
}
