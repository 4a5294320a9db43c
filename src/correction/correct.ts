import { after } from "./after.js";
import { alternatives } from "./alternatives.js";
import { assembleCorrection, type Outcome } from "./assembleCorrection.js";
import type { Correction, WayOut } from "./correction.js";
import { CORRECT_DEFAULTS, type CorrectOptions } from "./correctOptions.js";
import { findObstacles } from "./findObstacles.js";
import { findWayOut } from "./findWayOut.js";
import { finerScale } from "./finerScale.js";
import { forecastCard } from "./forecast/forecastCard.js";
import { FORECAST_OPTIONS } from "./forecast/forecastOptions.js";
import { colourScore, isWithin } from "./goal.js";
import { type CheckedJob, checkJob, type Job } from "./job.js";
import { PAINT_IS_FREE } from "./objective.js";
import { type Problem, prepareProblem } from "./problem.js";
import { findMix } from "./search/findMix.js";
import { matches, pickMix } from "./search/pickMix.js";
import { polish, unroundedBest } from "./search/polish.js";
import { forSquares, searchMixes } from "./search/searchMixes.js";
import { solve } from "./search/solve.js";
import { settleTies } from "./settleTies.js";
import { whyUnused } from "./whyUnused.js";

/**
 * The grams of each toner to add so that the mix moves from the sprayed card to the targets.
 * Ties the model to the card; searches all sets of up to four toners for the whole scale steps and drops that leave the least
 * true CIEDE2000 over all targets, lights and geometries (all together, or the worst) within stock and cup; takes as few pours
 * as are worth their while. Bad input throws InputError with code and place; that a target cannot be matched is
 * an answer. Sources: Walowit, McCarthy & Berns 1987; Lawson & Hanson 1974; Schnorr & Euchner 1994.
 */
export function correct(job: Job, options: CorrectOptions = {}): Correction {
  const settings = { ...CORRECT_DEFAULTS, ...options };
  const checked = checkJob(job);
  const { problem, warnings, isReadable } = prepareProblem(checked);
  const outcome = findOutcome(problem, isReadable, settings);
  const correction = assembleCorrection(checked, problem, warnings, {
    ...outcome,
    wayOut: settings.wayOut && outcome.status === "out-of-reach" ? wayOutOf(checked, problem) : null,
  });
  if (settings.forecast === false || outcome.status === "undetermined") return correction;
  const asked = FORECAST_OPTIONS.check(
    settings.forecast === true ? {} : settings.forecast,
    "options.forecast",
  );
  return { ...correction, forecast: forecastCard(checked, problem, outcome.additions, asked) };
}

/** Several shares of the pot are tried, each with a search of its own. */
const WAY_OUT_EFFORT = Object.freeze({ rounds: 2, mostSubsets: 40 });

function wayOutOf({ limits }: CheckedJob, problem: Problem): WayOut {
  const { pot, room } = problem.bench;
  const capacity = limits.potMaxGrams ?? room + pot.reduce((sum, grams) => sum + grams, 0);
  return findWayOut(problem, {
    capacity,
    answer: (part) =>
      pickMix(part, searchMixes(part, PAINT_IS_FREE, WAY_OUT_EFFORT).byPours)?.additions ??
      new Float64Array(pot.length),
  });
}

function findOutcome(
  problem: Problem,
  isReadable: boolean,
  options: Required<CorrectOptions>,
): Omit<Outcome, "wayOut"> {
  const { goal, bench } = problem;
  const nothing = new Float64Array(bench.pot.length);
  const stay = {
    additions: nothing,
    unrounded: nothing,
    objective: goal.objective,
    byPours: [],
    ties: [],
    alternatives: [],
    unused: [],
    finerScale: null,
    search: { method: "none", subsets: 0, latticePoints: 0, gapDeltaE00: 0 },
    obstacles: [],
    iterations: 0,
  } as const;
  if (!isReadable) return { ...stay, status: "undetermined", stopReason: "readings-censored" };
  const before = after(problem, nothing).lab;
  if (isWithin(goal, before)) return { ...stay, status: "good-enough", stopReason: "within-tolerance" };

  const { problem: served, paint, search, picked } = findMix(problem);
  const { mix, ties } = picked ? settleTies(served, picked, paint) : { mix: picked, ties: [] };
  const polished = polish(served, mix, paint);
  const { additions, unrounded, stopReason, iterations } = polished;
  const isBetter = colourScore(served.goal, after(served, additions).lab) < colourScore(served.goal, before);
  const answer = isBetter ? additions : nothing;
  const { subsets, latticePoints, gap } = search;
  const found = {
    additions: answer,
    unrounded: isBetter ? unrounded : nothing,
    objective: served.goal.objective,
    byPours: search.byPours.map((one) => one.additions),
    ties,
    alternatives: options.alternatives
      ? alternatives(served, search, answer, isBetter ? mix : undefined)
      : [],
    unused: options.alternatives ? whyUnused(served, answer) : [],
    finerScale: options.alternatives && mix && isBetter ? finerScale(served, mix, paint) : null,
    search: {
      method: bench.maxPours > 4 ? "all-subsets-then-stepwise" : "all-subsets",
      subsets,
      latticePoints,
      gapDeltaE00: Number.isFinite(gap) ? gap : null,
    },
    obstacles: [],
    stopReason,
    iterations,
  } as const;
  if (isBetter && matches(problem, answer)) return { ...found, status: "corrected" };
  if (!polished.converged) {
    return { ...found, additions: nothing, unrounded: nothing, status: "undetermined" };
  }
  const few = unroundedBest(served, mix);
  const squares = forSquares(served);
  return {
    ...found,
    obstacles: findObstacles(squares, solve(squares, paint), few),
    status: "out-of-reach",
  };
}
