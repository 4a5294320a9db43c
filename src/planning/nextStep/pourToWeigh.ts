import type { Correction } from "../../correction/correction.js";
import type { Forecast } from "../../forecast/forecast.js";
import { forecastCard } from "../../forecast/forecastCard.js";
import type { CheckedForecastOptions } from "../../forecast/forecastOptions.js";
import type { CheckedJob } from "../../problem/job.js";
import type { PreparedProblem, Problem } from "../../problem/problem.js";
import { findMix } from "../../search/findMix.js";
import { gramsInOrder } from "../../toners/pot.js";

/** Share of the tolerance aimed at where the card is already within tolerance. */
const CLOSER = 0.01;

/** A pour that could be made, in the order of the toner set, and its forecast. */
export interface PourToWeigh {
  readonly additions: Float64Array;
  readonly forecast: Forecast;
}

/**
 * The pour that is weighed against stopping: what the correction asks for, or where that is nothing, since the card is
 * good enough, what would bring the mix nearer still.
 */
export function pourToWeigh(
  job: CheckedJob,
  prepared: PreparedProblem,
  correction: Correction,
  options: CheckedForecastOptions,
): PourToWeigh {
  const { problem } = prepared;
  const additions =
    correction.status === "good-enough" ? closerStill(problem) : additionsOf(correction, problem);
  const forecast = correction.status === "good-enough" ? undefined : correction.forecast;
  return { additions, forecast: forecast ?? forecastCard(job, prepared, additions, options) };
}

function additionsOf({ additions }: Correction, { model }: Problem): Float64Array {
  const grams = Object.fromEntries(additions.map(({ toner, grams: amount }) => [toner, amount]));
  return gramsInOrder(grams, model.set.toners);
}

/** The pour that a tolerance near zero would ask for. */
function closerStill(problem: Problem): Float64Array {
  const { goal } = problem;
  const aims = goal.aims.map((aim) => ({ ...aim, allowed: CLOSER * aim.allowed }));
  const { picked } = findMix({ ...problem, goal: { ...goal, aims } });
  return picked?.additions ?? new Float64Array(problem.bench.pot.length);
}
