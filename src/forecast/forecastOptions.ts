import { number } from "../core/shape/number.js";
import { withDefaults } from "../core/shape/withDefaults.js";

/** How sure a forecast is to be, and of what. */
export interface ForecastOptions {
  /** Probability with which an interval holds what the next card will show. */
  readonly level?: number;
  /** Probability with which the first pour of a toner is not too much. */
  readonly safety?: number;
  /** A toner whose strength is known to this standard deviation of ln strength is poured in full. */
  readonly knownSd?: number;
  /** Worlds drawn for intervals, and for whether there is a way back. */
  readonly draws?: number;
  readonly drawsOfReturn?: number;
  readonly seed?: number;
}

/** All of it given. */
export type CheckedForecastOptions = Required<ForecastOptions>;

/** Level, safety and what counts as known are common practice, no source. */
export const FORECAST_DEFAULTS: CheckedForecastOptions = Object.freeze({
  level: 0.9,
  safety: 0.95,
  knownSd: 0.05,
  draws: 500,
  drawsOfReturn: 100,
  seed: 1,
});

const DRAWS = number({ min: 2, max: 100_000, whole: true });

/** What is left out keeps its default. */
export const FORECAST_OPTIONS = withDefaults<CheckedForecastOptions>(FORECAST_DEFAULTS, {
  level: number({ min: 0.5, max: 0.999 }),
  safety: number({ min: 0.5, max: 0.999_999 }),
  knownSd: number({ min: 0, max: 10 }),
  draws: DRAWS,
  drawsOfReturn: DRAWS,
  seed: number({ min: 0, max: Number.MAX_SAFE_INTEGER, whole: true }),
});
