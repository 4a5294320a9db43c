import type { Belief } from "../belief/belief.js";
import { eyesOf } from "../belief/eyesOf.js";
import type { EyeGain } from "../belief/unknowns/instrument.js";
import { sum } from "../core/sum.js";
import { workFor, workWarnings } from "../core/workOptions.js";
import { forecastCard } from "../forecast/forecastCard.js";
import { FORECAST_OPTIONS } from "../forecast/forecastOptions.js";
import { after } from "../problem/after.js";
import { isWithin } from "../problem/goal.js";
import { type CheckedJob, checkJob, type Job } from "../problem/job.js";
import { type PreparedProblem, type Problem, prepareProblem } from "../problem/problem.js";
import { createScore } from "../problem/score.js";
import { asSprayed } from "../problem/spray/asSprayed.js";
import { PAINT_IS_FREE } from "../problem/terms.js";
import { type ChosenBy, weighMix } from "../problem/weighMix.js";
import { withRisk } from "../problem/withRisk.js";
import type { FoundMix } from "../search/createSearch.js";
import { matches, pickMix } from "../search/pickMix.js";
import { polish, unroundedBest } from "../search/polish.js";
import { forSquares, searchMixes } from "../search/searchMixes.js";
import { solve } from "../search/solve.js";
import { trueRisk } from "../search/trueRisk.js";
import { alternatives } from "./alternatives.js";
import { assembleCorrection, NOT_FORECAST, type Outcome } from "./assembleCorrection.js";
import { compareNext } from "./compareNext.js";
import type { Correction, WayOut } from "./correction.js";
import { CORRECT_DEFAULTS, type CorrectOptions } from "./correctOptions.js";
import { findMatch } from "./findMatch.js";
import { findObstacles } from "./findObstacles.js";
import { findWayOut } from "./findWayOut.js";
import { finerScale } from "./finerScale.js";
import { settleTies } from "./settleTies.js";
import { createStages, namesOf, type Stage, type Stages } from "./stages.js";
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
  const work = workFor(settings);
  const posed = prepareProblem(checked, work);
  const prepared = posed.carriesAnswer ? { ...posed, problem: trueRisk(posed) } : posed;
  const { problem, warnings } = prepared;
  const cut: Stage[] = [];
  const within = createStages(work, cut);
  const found = findOutcome(prepared, settings, within);
  const isByEye = prepared.isByEye && !NOT_FORECAST.includes(found.status);
  const outcome = isByEye ? ({ ...found, status: "by-eye", obstacles: [] } as const) : found;
  const wayOut =
    settings.wayOut && outcome.status === "out-of-reach"
      ? within("wayOut", withRisk(problem, 0), (part) => wayOutOf(checked, part))
      : null;
  const asked =
    settings.forecast === false || NOT_FORECAST.includes(outcome.status)
      ? undefined
      : FORECAST_OPTIONS.check(settings.forecast === true ? {} : settings.forecast, "options.forecast");
  const forecast =
    asked &&
    within("forecast", problem, (part) =>
      forecastCard(checked, { ...prepared, problem: part }, outcome.additions, asked),
    );
  const noted = { ...prepared, warnings: [...warnings, ...workWarnings(namesOf(cut))] };
  const correction = assembleCorrection(checked, noted, { ...outcome, wayOut });
  return {
    ...correction,
    ...(isByEye && { compareNext: compareNext(checked, prepared), observers: namedEyes(prepared.belief) }),
    ...(forecast && { forecast }),
  };
}

/** Eyes that have a name. */
function namedEyes(belief: Belief): Readonly<Record<string, EyeGain>> {
  return Object.fromEntries([...eyesOf(belief)].filter(([name]) => name !== ""));
}

/** What would be chosen if paint weighed nothing, where that is closer and takes more. */
function closestWithout(
  problem: Problem,
  mixes: readonly FoundMix[],
  answer: ChosenBy,
): FoundMix | undefined {
  const free = { ...problem, bench: { ...problem.bench, paintWorth: 0 } };
  const closest = pickMix(free, mixes);
  const withPaint = closest && weighMix(problem.bench, closest);
  const isCloser = withPaint && withPaint.score + withPaint.pours < answer.score + answer.pours - SAME;
  return isCloser && withPaint.paint > answer.paint ? closest : undefined;
}

/** Mixes closer than this, in ΔE00, count as equal; ties are settled among them. */
const SAME = 0.01;

/** Several shares of the pot are tried, each with a search of its own. */
const WAY_OUT_EFFORT = Object.freeze({ rounds: 2, mostSubsets: 40 });

function wayOutOf({ limits }: CheckedJob, problem: Problem): WayOut {
  const { pot, room } = problem.bench;
  const capacity = limits.potMaxGrams ?? room + sum(pot);
  return findWayOut(problem, {
    capacity,
    answer: (part) =>
      pickMix(part, searchMixes(part, PAINT_IS_FREE, WAY_OUT_EFFORT).byPours)?.additions ??
      new Float64Array(pot.length),
  });
}

function findOutcome(
  prepared: PreparedProblem,
  options: Required<CorrectOptions>,
  within: Stages,
): Omit<Outcome, "wayOut"> {
  const { judgement, isReadable, spray } = prepared;
  const { goal, bench } = prepared.problem;
  const nothing = new Float64Array(bench.pot.length);
  const stay = {
    additions: nothing,
    unrounded: nothing,
    objective: goal.objective,
    byPours: [],
    chosenBy: null,
    closest: null,
    ties: [],
    alternatives: [],
    unused: [],
    finerScale: null,
    search: { method: "none", subsets: 0, latticePoints: 0, gapDeltaE00: 0, riskShare: 1 },
    obstacles: [],
    iterations: 0,
  } as const;
  if (!isReadable) return { ...stay, status: "undetermined", stopReason: "readings-censored" };
  if (judgement.verdict === "open") return { ...stay, status: "undetermined", stopReason: "stopped" };
  if (judgement.verdict === "doubted") {
    return { ...stay, status: "undetermined", stopReason: "card-not-from-pot" };
  }
  // Whoever looked at the textures saw what no colour says.
  if (spray?.toldBy === "texture") return { ...stay, status: "other-flake", stopReason: spray.toldBy };
  const before = after(prepared.problem, nothing).lab;
  if (isWithin(goal, before)) return { ...stay, status: "good-enough", stopReason: "within-tolerance" };

  if (spray?.verdict === "other-flake")
    return { ...stay, status: "other-flake", stopReason: spray.toldBy ?? "size" };
  const problem = asSprayed(prepared);
  const isResprayed = spray?.verdict === "respray";
  const resprayed = { status: "respray", stopReason: "flakes-lie-otherwise" } as const;
  if (isResprayed && (!spray.paintDiffers || isWithin(goal, after(problem, nothing).lab)))
    return { ...stay, ...resprayed };

  const { found: sought, settled } = within("search", problem, (part) => {
    const found = findMatch(part);
    return { found, settled: found.picked && settleTies(found.problem, found.picked, found.paint) };
  });
  const { paint, search, picked, riskShare } = sought;
  const served = { ...sought.problem, work: problem.work };
  const { mix, ties } = settled ?? { mix: picked, ties: [] };
  const polished = polish(served, mix, paint);
  const { additions, unrounded, stopReason, iterations } = polished;
  const score = createScore(served, paint);
  const isBetter = score(additions) < score(nothing);
  const answer = isBetter ? additions : nothing;
  const chosenBy = weighMix(bench, {
    additions: answer,
    score: createScore(served, PAINT_IS_FREE)(answer),
  });
  const { subsets, latticePoints, gap } = search;
  const found = {
    additions: answer,
    unrounded: isBetter ? unrounded : nothing,
    objective: served.goal.objective,
    byPours: search.byPours.map((one) => one.additions),
    chosenBy,
    closest: closestWithout(served, search.byPours, chosenBy)?.additions ?? null,
    ties,
    ...(options.alternatives
      ? within("alternatives", served, (part) => ({
          alternatives: alternatives(part, search, answer, isBetter ? mix : undefined),
          unused: whyUnused(part, answer),
          finerScale: mix && isBetter ? finerScale(part, mix, paint) : null,
        }))
      : { alternatives: [], unused: [], finerScale: null }),
    search: {
      method: bench.maxPours > 4 ? "all-subsets-then-stepwise" : "all-subsets",
      subsets,
      latticePoints,
      gapDeltaE00: Number.isFinite(gap) ? gap : null,
      riskShare,
    },
    obstacles: [],
    stopReason,
    iterations,
  } as const;
  if (isResprayed) return { ...found, ...resprayed };
  if (isBetter && matches(problem, answer)) return { ...found, status: "corrected" };
  if (!polished.converged && (polished.stopReason !== "stopped" || !mix)) {
    return { ...found, additions: nothing, unrounded: nothing, status: "undetermined" };
  }
  const obstacles = within("obstacles", withRisk(served, 0), (part) => {
    const squares = forSquares(part);
    const named = findObstacles(squares, solve(squares, paint), unroundedBest(part, mix));
    // A search that was cut off names no obstacles.
    return part.work.isSpent() ? [] : named;
  });
  return { ...found, obstacles, status: "out-of-reach" };
}
