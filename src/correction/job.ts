import { type BeliefSizes, checkBeliefSizes } from "../belief/beliefSizes.js";
import { checkViewing, type Viewing } from "../colorimetry/viewing.js";
import { checkList, checkNumber, checkOneOf, checkRecord, checkText, pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import type { ReadSurface } from "../scene/createScene.js";
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

/** A card of the pot and what the scale had shown when it was sprayed. */
export interface JobCard {
  readonly name?: string;
  /** What was in the pot; of the last card the pot of the job when absent. */
  readonly pot?: Grams;
  readonly readings: readonly Reading[];
}

/** One correction to work out: the pot, the card or cards sprayed from it, and what it should look like. */
export interface Job {
  readonly toners: TonerSet;
  readonly viewing: Viewing;
  readonly pot: Grams;
  /** The card of the pot as it is; or `cards`, one of the two. */
  readonly card?: { readonly readings: readonly Reading[] };
  /** All cards of this pot in the order of spraying; the last one is corrected from, all are learnt from. */
  readonly cards?: readonly JobCard[];
  readonly targets: readonly Target[];
  readonly limits?: Limits;
  /** `least-squares` when absent. */
  readonly objective?: CorrectionObjective;
  readonly tolerance?: Partial<Tolerance>;
  /** How far cans, paint, cards and instruments may be off, where a shop knows better than `BELIEF_SIZES`. */
  readonly belief?: Partial<BeliefSizes>;
}

/** A job with everything checked and every default in place. */
export interface CheckedJob extends Job {
  readonly targets: readonly Required<Target>[];
  readonly limits: Limits;
  readonly objective: CorrectionObjective;
  readonly tolerance: Tolerance;
  readonly belief: BeliefSizes;
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
  const { limits = {}, objective = "least-squares", tolerance = {}, belief = {} } = record;
  const job = {
    toners,
    viewing: checkViewing(record.viewing, "viewing"),
    pot,
    ...checkCards(record, pot, toners),
    targets: checkTargets(record.targets),
    limits: checkLimits(limits, "limits", toners.toners),
    objective: checkOneOf(objective, "objective", CORRECTION_OBJECTIVES),
    tolerance: checkTolerance(tolerance, "tolerance"),
    belief: checkBeliefSizes(belief, "belief", toners),
  };
  checkSize(job);
  return job;
}

const MOST_CARDS = 100;

/** `card` or `cards`, whichever was given, checked. */
function checkCards(
  { card, cards }: Readonly<Record<string, unknown>>,
  pot: Grams,
  { toners }: TonerSet,
): Pick<Job, "card" | "cards"> {
  if (cards === undefined) {
    return { card: { readings: checkReadings(checkRecord(card, "card").readings, "card.readings") } };
  }
  if (card !== undefined) {
    throw new InputError("duplicate", "card", "the cards stand in `cards` already; give one of the two");
  }
  const list = Array.from(checkList(cards, "cards", { min: 1, max: MOST_CARDS }));
  const checked = list.map((entry, i): JobCard => {
    const path = `cards[${i}]`;
    const isLast = i === list.length - 1;
    const { name, pot: own, readings } = checkRecord(entry, path);
    const sprayedFrom = own === undefined && isLast ? pot : checkGrams(own, pathTo(path, "pot"), toners);
    const isSame = toners.every(({ id }) => (sprayedFrom[id] ?? 0) === (pot[id] ?? 0));
    if (isLast && !isSame) {
      const reason =
        "the last card must be sprayed from the pot as it is; leave its pot out, or read a card of it";
      throw new InputError("out-of-range", pathTo(path, "pot"), reason);
    }
    return {
      ...(name !== undefined && { name: checkText(name, pathTo(path, "name")) }),
      pot: sprayedFrom,
      readings: checkReadings(readings, pathTo(path, "readings")),
    };
  });
  return { cards: checked };
}

/** All cards of a checked job with their names, pots and places in it, in the order of spraying. */
export function cardsOf({ card, cards = [], pot }: CheckedJob): readonly (Required<JobCard> & ReadSurface)[] {
  if (card) return [{ name: "card 1", pot, readings: card.readings, path: "card.readings" }];
  return cards.map((one, i) => ({ name: `card ${i + 1}`, pot, ...one, path: `cards[${i}].readings` }));
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
