import { sum } from "../core/sum.js";
import { stepsToReach } from "../numeric/scalar/stepsWithin.js";
import { type Grams, gramsInOrder } from "../toners/pot.js";
import type { CheckedJob } from "./job.js";
import { LIMITS_DEFAULTS } from "./limits.js";

/** The limits of a job as numbers in the order of the toner set. */
export interface Bench {
  readonly pot: Float64Array;
  /** Most that may be added of each toner (Infinity without a limit), and of all together; ≥ 0. */
  readonly stock: Float64Array;
  readonly room: number;
  /** The step of the scale itself. */
  readonly step: number;
  /** By toner: what is poured is a whole multiple of this, be it scale step or drop; 0 is continuous. */
  readonly unit: Float64Array;
  /** By toner: grams in a drop where it is dosed in drops, else 0. */
  readonly drop: Float64Array;
  /** By toner: least that is poured where any is; a whole multiple of the unit, ≥ 0. */
  readonly least: Float64Array;
  readonly maxPours: number;
  /** A further pour must lower the score by this much, ΔE00. */
  readonly pourWorth: number;
  /** Cost of added paint: ΔE00 per pot mass, for what is added beyond half a pot. */
  readonly paintWorth: number;
}

export function createBench({ toners, pot, limits }: CheckedJob): Bench {
  const {
    scaleStepGrams,
    minPourGrams = 0,
    gramsPerDrop = {},
    maxPours,
    pourWorthDeltaE00,
    paintWorthDeltaE00,
    stockGrams = {},
  } = { ...LIMITS_DEFAULTS, ...limits };
  const grams = gramsInOrder(pot, toners.toners);
  const inPot = sum(grams);
  const perToner = (said: Grams, otherwise: number) =>
    Float64Array.from(toners.toners, ({ id }) => (Object.hasOwn(said, id) ? said[id] : otherwise));
  return {
    pot: grams,
    stock: perToner(stockGrams, Number.POSITIVE_INFINITY),
    room: Math.max(0, (limits.potMaxGrams ?? LIMITS_DEFAULTS.timesThePot * inPot) - inPot),
    step: scaleStepGrams,
    unit: perToner(gramsPerDrop, scaleStepGrams),
    drop: perToner(gramsPerDrop, 0),
    least: perToner(
      gramsPerDrop,
      scaleStepGrams > 0
        ? scaleStepGrams * Math.max(1, stepsToReach(minPourGrams, scaleStepGrams))
        : minPourGrams,
    ),
    maxPours,
    pourWorth: pourWorthDeltaE00,
    paintWorth: paintWorthDeltaE00,
  };
}
