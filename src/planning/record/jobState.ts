import { checkList, checkNumber, checkOneOf, checkRecord, checkText } from "../../core/check.js";
import { InputError } from "../../core/InputError.js";
import type { Correction } from "../../correction/correction.js";
import { withoutTail } from "../../numeric/withoutTail.js";
import type { Comparison } from "../../scene/readings/comparison.js";
import type { Grams } from "../../toners/pot.js";
import type { PotCard } from "../learning/learningJob.js";
import type { DatedEntry, RecordEntry } from "./recordEntry.js";

/** What there is to do next. */
export type BenchStep =
  | { readonly kind: "start" }
  | { readonly kind: "pour"; readonly pours: readonly { readonly toner: string; readonly grams: number }[] }
  | { readonly kind: "read-card" }
  | { readonly kind: "correct" }
  | { readonly kind: "done"; readonly status: Correction["status"] };

/** Where a job stands, as the command line writes it. */
export interface JobStateRecord extends Pick<JobState, "pot" | "cans" | "next"> {
  readonly format: "masstone/job-state";
  readonly version: 1;
  /** How many there are. */
  readonly entries: number;
  /** Every card with the pot that it was sprayed from. */
  readonly cards: readonly { readonly name: string; readonly pot: Grams }[];
  /** What was odd about the file. */
  readonly remarks: readonly string[];
}

/** Where a job stands: all of it follows from the entries of its record. */
export interface JobState {
  readonly job?: Readonly<Record<string, unknown>>;
  readonly pot: Grams;
  /** The can that a toner was last poured from, where it was said. */
  readonly cans: Readonly<Record<string, string>>;
  /** Every card with the pot that it was sprayed from. */
  readonly cards: readonly PotCard[];
  /** What an eye saw, by target. */
  readonly comparisons: readonly { readonly target: string; readonly comparison: Comparison }[];
  /** Whether something was poured, or poured off, since the last card. */
  readonly isStirred: boolean;
  readonly next: BenchStep;
}

/** Sums of grams without the tail that binary fractions leave. */

/** A pour this near to what was asked is that pour: common practice, no source. */
const POURED_SHARE = 0.5;

/** Folds the entries of a record, in order. Throws where an entry does not fit those before it. */
export function jobState(entries: readonly DatedEntry[]): JobState {
  const withdrawn = withdrawnEntries(entries);
  let job: JobState["job"];
  let pot: Record<string, number> = {};
  let cans: Record<string, string> = {};
  let answer: Correction | undefined;
  let asked: Record<string, number> = {};
  let isStirred = false;
  const cards: PotCard[] = [];
  const comparisons: JobState["comparisons"][number][] = [];
  for (const { number, entry } of entries) {
    if (withdrawn.has(number)) continue;
    switch (entry.kind) {
      case "job":
        if (job !== undefined) throw refuse(number, "a record is of one job; there is one already");
        job = entry.job;
        break;
      case "pour":
        pot = { ...pot, [entry.toner]: withoutTail(gramsOf(pot, entry.toner) + entry.grams) };
        if (entry.can !== undefined) cans = { ...cans, [entry.toner]: entry.can };
        asked = afterPour(asked, entry);
        isStirred = true;
        break;
      case "pour-off":
        pot = afterPourOff(pot, entry.grams, number);
        asked = {};
        isStirred = true;
        break;
      case "card":
        if (Object.keys(pot).length === 0) throw refuse(number, "a card of an empty pot");
        cards.push({
          name: entry.name,
          pot,
          readings: entry.readings,
          ...(entry.colours && { colours: entry.colours }),
        });
        answer = undefined;
        asked = {};
        isStirred = false;
        break;
      case "comparison":
        if (!cards.some(({ name }) => name === entry.comparison.card)) {
          throw refuse(number, `there is no card "${entry.comparison.card}"`);
        }
        comparisons.push({ target: entry.target, comparison: entry.comparison });
        answer = undefined;
        asked = {};
        break;
      case "answer":
        answer = entry.answer;
        asked = askedBy(answer, `entry ${number}`);
        break;
      case "withdraw":
      case "note":
        break;
    }
  }
  const pours = Object.entries(asked).map(([toner, grams]) => ({ toner, grams }));
  const next = nextStep({
    hasJob: job !== undefined,
    pot,
    pours,
    isStirred,
    hasCard: isSeen(cards.at(-1), comparisons),
    answer,
  });
  return { ...(job && { job }), pot, cans, cards, comparisons, isStirred, next };
}

/** Whether a card was read, or compared with a panel. */
function isSeen(card: PotCard | undefined, comparisons: JobState["comparisons"]): boolean {
  if (card === undefined) return false;
  const { name, readings, colours = [] } = card;
  return (
    readings.length + colours.length > 0 || comparisons.some(({ comparison }) => comparison.card === name)
  );
}

/** The job of a record with what an eye saw of its targets. Throws `unknown-word` for a target that the job has not. */
export function withComparisons(
  job: Readonly<Record<string, unknown>>,
  comparisons: JobState["comparisons"],
): Readonly<Record<string, unknown>> {
  if (comparisons.length === 0) return job;
  const targets = Array.from(checkList(job.targets, "targets"), (target, t) =>
    checkRecord(target, `targets[${t}]`),
  );
  for (const { target } of comparisons) {
    checkOneOf(
      target,
      "comparison.target",
      targets.map(({ name }) => String(name)),
    );
  }
  return {
    ...job,
    targets: targets.map((target) => ({
      ...target,
      comparisons: [
        ...Array.from(checkList(target.comparisons ?? [], "comparisons")),
        ...comparisons.filter((one) => one.target === target.name).map(({ comparison }) => comparison),
      ],
    })),
  };
}

function nextStep(at: {
  readonly hasJob: boolean;
  readonly pot: Grams;
  readonly pours: readonly { readonly toner: string; readonly grams: number }[];
  readonly isStirred: boolean;
  readonly hasCard: boolean;
  readonly answer: Correction | undefined;
}): BenchStep {
  if (!at.hasJob) return { kind: "start" };
  if (Object.keys(at.pot).length === 0 || at.pours.length > 0) return { kind: "pour", pours: at.pours };
  if (at.isStirred || !at.hasCard) return { kind: "read-card" };
  if (at.answer === undefined) return { kind: "correct" };
  // Nothing was worked out from a card that is not believed, or not readable: it is read again.
  if (at.answer.status === "undetermined") return { kind: "read-card" };
  // A card sprayed otherwise comes before any pour.
  if (at.answer.status === "respray") return { kind: "read-card" };
  return { kind: "done", status: at.answer.status };
}

/** A toner may be called like a property of every object. */
function gramsOf(pot: Grams, toner: string): number {
  return Object.hasOwn(pot, toner) ? pot[toner] : 0;
}

/** The pours of an answer as it stands in a file: nobody has looked at it before. */
function askedBy(answer: Correction, path: string): Record<string, number> {
  const additions = Array.from(checkList(answer.additions, `${path}: additions`), (addition, i) => {
    const place = `${path}: additions[${i}]`;
    const { toner, grams } = checkRecord(addition, place);
    return [checkText(toner, `${place}.toner`), checkNumber(grams, `${place}.grams`, { min: 0 })];
  });
  return Object.fromEntries(additions);
}

/** What is still to be poured of what was asked: a toner counts as poured from half of it on. */
function afterPour(
  asked: Readonly<Record<string, number>>,
  { toner, grams }: Extract<RecordEntry, { kind: "pour" }>,
): Record<string, number> {
  if (!Object.hasOwn(asked, toner)) return { ...asked };
  const { [toner]: wanted, ...others } = asked;
  return grams >= POURED_SHARE * wanted ? others : { ...others, [toner]: withoutTail(wanted - grams) };
}

function afterPourOff(pot: Grams, grams: number, number: number): Record<string, number> {
  const total = Object.values(pot).reduce((sum, amount) => sum + amount, 0);
  if (grams >= total) throw refuse(number, `${grams} g cannot be poured off from ${withoutTail(total)} g`);
  return Object.fromEntries(
    Object.entries(pot).map(([toner, amount]) => [toner, withoutTail(amount * (1 - grams / total))]),
  );
}

function withdrawnEntries(entries: readonly DatedEntry[]): ReadonlySet<number> {
  const withdrawn = new Set<number>();
  for (const { number, entry } of entries) {
    if (entry.kind !== "withdraw") continue;
    const kind = entries[entry.entry]?.entry.kind;
    if (entry.entry >= number || (kind !== "pour" && kind !== "pour-off" && kind !== "card")) {
      throw refuse(number, `entry ${entry.entry} is no earlier pour, pour-off or card`);
    }
    withdrawn.add(entry.entry);
  }
  return withdrawn;
}

function refuse(number: number, reason: string): InputError {
  return new InputError("out-of-range", `entry ${number}`, reason);
}
