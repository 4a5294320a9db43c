import { checkViewing, type Viewing } from "../colorimetry/viewing.js";
import { checkList, checkNumber, checkOneOf, checkRecord, checkText, pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { checkReadings, type Reading } from "../surface/reading.js";
import { checkTolerance, TARGET_ROLES, type TargetRole, type Tolerance } from "../tolerance/tolerance.js";
import { checkGrams, type Grams } from "../toners/pot.js";
import { checkTonerSet, type TonerSet } from "../toners/tonerSet.js";
import { checkSize } from "./checkSize.js";
import { CORRECTION_OBJECTIVES, type CorrectionObjective } from "./correctionObjective.js";
import { checkLimits, type Limits } from "./limits.js";

/** A panel to match, as read. */
export interface Target {
  readonly name: string;
  /** An edge when absent: the stricter of the two. */
  readonly role?: TargetRole;
  /** Share in the compromise between several targets; 1 when absent. */
  readonly weight?: number;
  readonly readings: readonly Reading[];
}

/** One correction to work out: the pot, the card sprayed from it, and what it should look like. */
export interface Job {
  readonly toners: TonerSet;
  readonly viewing: Viewing;
  readonly pot: Grams;
  readonly card: { readonly readings: readonly Reading[] };
  readonly targets: readonly Target[];
  readonly limits?: Limits;
  /** `least-squares` when absent. */
  readonly objective?: CorrectionObjective;
  readonly tolerance?: Partial<Tolerance>;
}

/** A job with everything checked and every default in place. */
export interface CheckedJob extends Job {
  readonly targets: readonly Required<Target>[];
  readonly limits: Limits;
  readonly objective: CorrectionObjective;
  readonly tolerance: Tolerance;
}

const MOST_TARGETS = 100;

/** Checks a whole job; paths are relative to it, such as `targets[0].readings[0].reflectance[3]`. */
export function checkJob(value: unknown): CheckedJob {
  const record = checkRecord(value, "");
  const toners = checkTonerSet(record.toners, "toners");
  const pot = checkGrams(record.pot, "pot", toners.toners);
  if (!Object.values(pot).some((grams) => grams > 0)) {
    throw new InputError("no-pigment", "pot", "the pot is empty; a card was sprayed from something");
  }
  const { limits = {}, objective = "least-squares", tolerance = {} } = record;
  const job = {
    toners,
    viewing: checkViewing(record.viewing, "viewing"),
    pot,
    card: { readings: checkReadings(checkRecord(record.card, "card").readings, "card.readings") },
    targets: checkTargets(record.targets),
    limits: checkLimits(limits, "limits", toners.toners),
    objective: checkOneOf(objective, "objective", CORRECTION_OBJECTIVES),
    tolerance: checkTolerance(tolerance, "tolerance"),
  };
  checkSize(job);
  return job;
}

function checkTargets(value: unknown): readonly Required<Target>[] {
  const list = checkList(value, "targets", { min: 1, max: MOST_TARGETS });
  const targets = Array.from(list, (entry, i) => {
    const path = `targets[${i}]`;
    const { name, role = "edge", weight = 1, readings } = checkRecord(entry, path);
    return {
      name: checkText(name, pathTo(path, "name")),
      role: checkOneOf(role, pathTo(path, "role"), TARGET_ROLES),
      weight: checkNumber(weight, pathTo(path, "weight"), { min: 0, max: 1e6 }),
      readings: checkReadings(readings, pathTo(path, "readings")),
    };
  });
  targets.forEach(({ name }, i) => {
    if (targets.findIndex((target) => target.name === name) !== i) {
      throw new InputError("duplicate", `targets[${i}].name`, `"${name}" stands twice`);
    }
  });
  if (!targets.some(({ weight }) => weight > 0)) {
    throw new InputError("out-of-range", "targets", "every weight is 0; at least one target must count");
  }
  return targets;
}
