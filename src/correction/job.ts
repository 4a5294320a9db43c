import { VIEWING, type Viewing } from "../colorimetry/viewing.js";
import { InputError } from "../core/InputError.js";
import { list } from "../core/shape/list.js";
import { number } from "../core/shape/number.js";
import { oneOf } from "../core/shape/oneOf.js";
import { optional } from "../core/shape/optional.js";
import { type Noted, record } from "../core/shape/record.js";
import { rule } from "../core/shape/rule.js";
import { text } from "../core/shape/text.js";
import { CARD, type Card } from "../prediction/card.js";
import { READINGS, type Reading } from "../surface/reading.js";
import {
  TARGET_ROLES,
  type TargetRole,
  TOLERANCE,
  TOLERANCE_DEFAULTS,
  type Tolerance,
} from "../tolerance/tolerance.js";
import { checkPot, GRAMS, type Grams } from "../toners/pot.js";
import { TONER_SET, type TonerSet } from "../toners/tonerSet.js";
import { checkSize } from "./checkSize.js";
import { CORRECTION_OBJECTIVES, type CorrectionObjective } from "./correctionObjective.js";
import { checkLimits, LIMITS, type Limits } from "./limits.js";

/** A panel to match, as read. */
export interface Target extends Noted {
  /** No two of a job alike. */
  readonly name: string;
  /** The stricter of the two when absent. */
  readonly role?: TargetRole;
  /**
   * Share in the compromise between several targets. 0: told how far off it will be, but nothing is poured for it and
   * it decides no status; one at least must weigh more.
   */
  readonly weight?: number;
  readonly readings: readonly Reading[];
}

/** One correction to work out: the pot, the card sprayed from it, and what it should look like. */
export interface Job extends Noted {
  /** Toners to pour, and those in the pot. */
  readonly toners: TonerSet;
  readonly viewing: Viewing;
  /** What the card was sprayed from. */
  readonly pot: Grams;
  /** Sprayed from the pot and read. */
  readonly card: Card;
  readonly targets: readonly Target[];
  readonly limits?: Limits;
  /** What is made small; `minimax` the worst edge, each ΔE00 against its allowance. */
  readonly objective?: CorrectionObjective;
  readonly tolerance?: Partial<Tolerance>;
}

/** A target with every default in place. */
export type CheckedTarget = Required<Omit<Target, "notes">> & Noted;

/** A job with everything checked and every default in place. */
export interface CheckedJob extends Job {
  readonly targets: readonly CheckedTarget[];
  readonly limits: Limits;
  readonly objective: CorrectionObjective;
  readonly tolerance: Tolerance;
}

/** A panel to match. */
export const TARGET = record<CheckedTarget, Target>({
  name: text(),
  role: optional(oneOf(TARGET_ROLES), "edge"),
  weight: optional(number({ min: 0, max: 1e6 }), 1),
  readings: READINGS,
});

/** How many panels a job may have. */
export const TARGET_COUNT = { min: 1, max: 100, unique: "name" } as const;

/** A job for itself; `checkJob` looks whether its parts fit one another. */
export const JOB = record<CheckedJob, Job>(
  {
    toners: TONER_SET,
    viewing: VIEWING,
    pot: GRAMS,
    card: CARD,
    targets: rule(list(TARGET, TARGET_COUNT), someCount),
    limits: optional(LIMITS, {}),
    objective: optional(oneOf(CORRECTION_OBJECTIVES), "least-squares"),
    tolerance: optional(TOLERANCE, TOLERANCE_DEFAULTS),
  },
  { format: "masstone/job" },
);

/** Checks a whole job; paths are relative to it, such as `targets[0].readings[0].reflectance[3]`. */
export function checkJob(value: unknown): CheckedJob {
  const job = JOB.check(value, "");
  const { toners } = job.toners;
  checkPot(job.pot, "pot", toners);
  checkLimits(job.limits, "limits", toners);
  checkSize(job);
  return job;
}

function someCount(targets: readonly { readonly weight: number }[], path: string): void {
  if (targets.some(({ weight }) => weight > 0)) return;
  throw new InputError("out-of-range", path, "every weight is 0; at least one target must count");
}
