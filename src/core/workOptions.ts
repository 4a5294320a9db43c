import { checkNumber } from "./check.js";
import { createWork, type Work } from "./createWork.js";
import type { Warning } from "./warning.js";

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

/** The budget that options ask for; what they leave out is as in `defaults`. */
export function workFor(options: WorkOptions = {}, defaults: Required<WorkOptions> = WORK_DEFAULTS): Work {
  const { maxWork, shouldStop } = { ...defaults, ...options };
  return createWork(checkNumber(maxWork, "options.maxWork", { min: 0 }), shouldStop);
}

/** Says what the work allowed did not suffice for; nothing where it did. */
export function workWarnings(parts: readonly string[]): readonly Warning[] {
  if (parts.length === 0) return [];
  return [
    {
      code: "work-limit",
      message: `the work allowed was spent, or the host asked to stop, before all was looked at of: ${parts.join("; ")}`,
    },
  ];
}
