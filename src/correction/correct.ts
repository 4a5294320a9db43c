import { assembleCorrection, type Outcome } from "./assembleCorrection.js";
import { certify } from "./certificate/certify.js";
import type { Correction, WayOut } from "./correction.js";
import { CORRECT_DEFAULTS, type CorrectOptions } from "./correctOptions.js";
import { findMix } from "./findMix.js";
import { findObstacles } from "./findObstacles.js";
import { findWayOut } from "./findWayOut.js";
import { forecastCard } from "./forecast/forecastCard.js";
import { checkForecastOptions } from "./forecast/forecastOptions.js";
import { isWithin, weightedDifference } from "./goal.js";
import { type CheckedJob, checkJob, type Job } from "./job.js";
import { keepFewPours, poured } from "./keepFewPours.js";
import { PAINT_IS_FREE } from "./objective.js";
import { type Problem, prepareProblem } from "./problem.js";
import type { Solution } from "./refine.js";
import { roundToScale } from "./roundToScale.js";
import { after } from "./solve.js";

/**
 * The grams of each toner to add so that the mix moves from the sprayed card to the targets.
 * Ties the model to the card, starts from weighted NNLS on the spectra, refines by Levenberg–Marquardt on the colour
 * residual over all targets, lights and geometries with Δ ≥ 0, stock and cup, keeps at most `maxPours`, rounds to the
 * scale and checks with the exact model and true CIEDE2000. Bad input throws InputError with code and place; that a
 * target cannot be matched is an answer. Sources: Walowit, McCarthy & Berns 1987; Levenberg 1944; Marquardt 1963.
 */
export function correct(job: Job, options: CorrectOptions = {}): Correction {
  const settings = { ...CORRECT_DEFAULTS, ...options };
  const checked = checkJob(job);
  const { problem, warnings, isReadable } = prepareProblem(checked);
  const outcome = findOutcome(problem, isReadable, settings);
  const correction = assembleCorrection(checked, problem, warnings, {
    ...outcome,
    certificate: settings.certificate && isReadable ? certify(problem, outcome, checked.targets) : null,
    wayOut: settings.wayOut && outcome.status === "out-of-reach" ? wayOutOf(checked, problem) : null,
  });
  if (settings.forecast === false || outcome.status === "undetermined") return correction;
  const asked = checkForecastOptions(settings.forecast === true ? {} : settings.forecast, "options.forecast");
  return { ...correction, forecast: forecastCard(checked, problem, outcome.additions, asked) };
}

function wayOutOf({ limits }: CheckedJob, problem: Problem): WayOut {
  const { pot, room } = problem.bench;
  const capacity = limits.potMaxGrams ?? room + pot.reduce((sum, grams) => sum + grams, 0);
  return findWayOut(problem, {
    capacity,
    answer: (part) => roundToScale(part, findMix(part).few.additions),
  });
}

function findOutcome(
  problem: Problem,
  isReadable: boolean,
  { alternatives }: Required<CorrectOptions>,
): Omit<Outcome, "certificate" | "wayOut"> {
  const { goal, bench } = problem;
  const nothing = new Float64Array(bench.pot.length);
  const stay = { additions: nothing, unrounded: nothing, obstacles: [], iterations: 0, byPours: [] };
  if (!isReadable) return { ...stay, status: "undetermined", stopReason: "readings-censored" };
  const before = after(problem, nothing).lab;
  if (isWithin(goal, before)) return { ...stay, status: "good-enough", stopReason: "within-tolerance" };

  const { full, few } = findMix(problem);
  const { stopReason, iterations } = few;
  const rounded = roundToScale(problem, few.additions);
  const colour = after(problem, rounded).lab;
  const byPours = alternatives ? bestByPours(problem, full) : [];
  const found = {
    additions: rounded,
    unrounded: few.additions,
    obstacles: [],
    stopReason,
    iterations,
    byPours,
  };
  if (isWithin(goal, colour)) return { ...found, status: "corrected" };
  if (!few.converged) return { ...stay, status: "undetermined", stopReason, iterations };
  const obstacles = findObstacles(problem, full, few);
  const isBetter = weightedDifference(goal, colour) < weightedDifference(goal, before);
  return {
    ...(isBetter ? found : { ...stay, byPours, stopReason, iterations }),
    obstacles,
    status: "out-of-reach",
  };
}

function bestByPours(problem: Problem, full: Solution): readonly Float64Array[] {
  const most = Math.min(problem.bench.maxPours, poured(full.additions).length);
  return Array.from({ length: most }, (_, i) => {
    const fewer = { ...problem, bench: { ...problem.bench, maxPours: i + 1 } };
    return roundToScale(problem, keepFewPours(fewer, full, PAINT_IS_FREE).additions);
  });
}
