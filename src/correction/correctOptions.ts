import { WORK_DEFAULTS, type WorkOptions } from "../core/workOptions.js";
import type { ForecastOptions } from "../forecast/forecastOptions.js";

/** What `correct` computes besides the additions; each takes more time. */
export interface CorrectOptions extends WorkOptions {
  /** Other corrections, why toners were not used, what a finer scale would bring: left empty without. */
  readonly alternatives?: boolean;
  /** What to pour off, or a new pot, where a match is out of reach; `wayOut` is null without. */
  readonly wayOut?: boolean;
  /** What to expect of the next card, how much to pour first, what can be put right; the slowest part by far. */
  readonly forecast?: boolean | ForecastOptions;
}

/** Everything but the forecast, by default. */
export const CORRECT_DEFAULTS: Required<CorrectOptions> = Object.freeze({
  alternatives: true,
  wayOut: true,
  forecast: false,
  ...WORK_DEFAULTS,
});
