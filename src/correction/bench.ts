import { gramsInOrder } from "../toners/pot.js";
import type { CheckedJob } from "./job.js";
import { LIMITS_DEFAULTS } from "./limits.js";

/** The limits of a job as numbers in the order of the toner set. */
export interface Bench {
  readonly pot: Float64Array;
  /** Most that may be added of each toner (Infinity without a limit), and of all together; ≥ 0. */
  readonly stock: Float64Array;
  readonly room: number;
  readonly step: number;
  readonly maxPours: number;
}

export function createBench({ toners, pot, limits }: CheckedJob): Bench {
  const { scaleStepGrams, maxPours, stockGrams = {} } = { ...LIMITS_DEFAULTS, ...limits };
  const grams = gramsInOrder(pot, toners.toners);
  const inPot = grams.reduce((sum, amount) => sum + amount, 0);
  return {
    pot: grams,
    stock: Float64Array.from(toners.toners, ({ id }) =>
      Object.hasOwn(stockGrams, id) ? stockGrams[id] : Number.POSITIVE_INFINITY,
    ),
    room: Math.max(0, (limits.potMaxGrams ?? LIMITS_DEFAULTS.timesThePot * inPot) - inPot),
    step: scaleStepGrams,
    maxPours,
  };
}
