import { checkNumber } from "../core/check.js";
import { createWork, type Work } from "../core/createWork.js";

/** How much work an answer may take. */
export interface WorkOptions {
  /** Steps of about one multiplication and addition, half a nanosecond to three each: the same on every machine. */
  readonly maxWork?: number;
  /** Asked every few milliseconds; once it says true the answer is what has been found by then. */
  readonly shouldStop?: () => boolean;
}

/** Half a second or so; what the nastiest jobs come to is measured in benchmarks/nasty.mjs. */
export const WORK_DEFAULTS: Required<WorkOptions> = Object.freeze({
  maxWork: 5e8,
  shouldStop: () => false,
});

/** The budget that options ask for. */
export function workFor(options: WorkOptions = {}): Work {
  const { maxWork, shouldStop } = { ...WORK_DEFAULTS, ...options };
  return createWork(checkNumber(maxWork, "options.maxWork", { min: 0 }), shouldStop);
}
