import { checkInteger, checkKeys, checkNumber, checkRecord, pathTo } from "../../core/check.js";

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
export const FORECAST_DEFAULTS: Required<ForecastOptions> = Object.freeze({
  level: 0.9,
  safety: 0.95,
  knownSd: 0.05,
  draws: 500,
  drawsOfReturn: 100,
  seed: 1,
});

/** A closed record; what is left out keeps its default. */
export function checkForecastOptions(value: unknown, path: string): CheckedForecastOptions {
  const record = checkRecord(value, path);
  checkKeys(record, path, Object.keys(FORECAST_DEFAULTS));
  const given = { ...FORECAST_DEFAULTS, ...withoutUndefined(record) };
  const at = (key: keyof ForecastOptions) => pathTo(path, key);
  const most = { min: 2, max: 100_000 };
  return {
    level: checkNumber(given.level, at("level"), { min: 0.5, max: 0.999 }),
    safety: checkNumber(given.safety, at("safety"), { min: 0.5, max: 0.999_999 }),
    knownSd: checkNumber(given.knownSd, at("knownSd"), { min: 0, max: 10 }),
    draws: checkInteger(given.draws, at("draws"), most),
    drawsOfReturn: checkInteger(given.drawsOfReturn, at("drawsOfReturn"), most),
    seed: checkInteger(given.seed, at("seed"), { min: 0, max: Number.MAX_SAFE_INTEGER }),
  };
}

function withoutUndefined(record: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  return Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined));
}
