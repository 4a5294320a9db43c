import { correct } from "../../correction/correct.js";
import type { Correction } from "../../correction/correction.js";
import type { Forecast } from "../../correction/forecast/forecast.js";
import { forecastCard } from "../../correction/forecast/forecastCard.js";
import type { CheckedForecastOptions } from "../../correction/forecast/forecastOptions.js";
import type { CheckedJob } from "../../correction/job.js";
import type { Problem } from "../../correction/problem.js";
import { gramsInOrder } from "../../toners/pot.js";

/** Share of the tolerance that is asked for where the card is within all of it: another pour must be worth its card. */
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
  problem: Problem,
  correction: Correction,
  options: CheckedForecastOptions,
): PourToWeigh {
  const { edgeDeltaE00, blendDeltaE00 } = job.tolerance;
  const closer = { edgeDeltaE00: CLOSER * edgeDeltaE00, blendDeltaE00: CLOSER * blendDeltaE00 };
  const { additions, forecast } =
    correction.status === "good-enough"
      ? correct({ ...job, tolerance: closer }, { alternatives: false, wayOut: false })
      : correction;
  const grams = Object.fromEntries(additions.map(({ toner, grams: amount }) => [toner, amount]));
  const inOrder = gramsInOrder(grams, problem.model.set.toners);
  return { additions: inOrder, forecast: forecast ?? forecastCard(job, problem, inOrder, options) };
}
