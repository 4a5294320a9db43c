import { InputError } from "../core/InputError.js";
import { withoutTail } from "../numeric/scalar/withoutTail.js";
import type { PotCard } from "../planning/learning/learningJob.js";
import { isMeasured } from "../scene/card.js";
import type { Comparison } from "../scene/readings/comparison.js";
import { type Grams, totalGrams } from "../toners/pot.js";
import {
  type Asked,
  askedBy,
  NOTHING_ASKED,
  nextPot,
  type PlannedPot,
  plannedPots,
  type Stage,
} from "./asked.js";
import { type Answered, type Begun, type BenchStep, nextStep } from "./benchStep.js";
import type { DatedEntry, RecordEntry } from "./recordEntry.js";

/** Where a job stands, as the command line writes it. */
export interface JobStateRecord extends Pick<JobState, "pot" | "cans" | "next" | "sprayed"> {
  readonly format: "masstone/job-state";
  readonly version: 1;
  /** How many there are. */
  readonly entries: number;
  /** Every card with the pot that it was sprayed from. */
  readonly cards: readonly { readonly name: string; readonly pot: Grams }[];
  /** What was odd about the file. */
  readonly remarks: readonly string[];
  /** Before anything is sprayed. */
  readonly caution: string;
}

/** Where a job stands: all of it follows from the entries of its record. */
export interface JobState extends Begun {
  readonly pot: Grams;
  /** The can that a toner was last poured from, where it was said. */
  readonly cans: Readonly<Record<string, string>>;
  /** Every card with the pot that it was sprayed from. */
  readonly cards: readonly PotCard[];
  /** What an eye saw, by target. */
  readonly comparisons: readonly { readonly target: string; readonly comparison: Comparison }[];
  /** Of them the first that was sprayed from the pot in use. */
  readonly firstCard: number;
  /** Whether something was poured since the last card; what is poured off stirred leaves the mix as it is. */
  readonly isStirred: boolean;
  /** Colours of the planned pots in turn; empty without a plan. */
  readonly stages: readonly Stage[];
  /** Panels that are painted. */
  readonly sprayed: readonly string[];
  readonly next: BenchStep;
}

/** A pour within this of what was asked counts as that pour: common practice, no source. */
const POURED_SHARE = 0.5;

/** The record with further entries appended, at a time that does not matter. */
export function withEntries(
  entries: readonly DatedEntry[],
  further: readonly RecordEntry[],
): readonly DatedEntry[] {
  return [...entries, ...further.map((entry, i) => ({ number: entries.length + i, at: "", entry }))];
}

/** Folds the entries of a record, in order. Throws where an entry does not fit those before it. */
export function jobState(entries: readonly DatedEntry[]): JobState {
  const withdrawn = withdrawnEntries(entries);
  const isWithdrawn = (number: number) => withdrawn.has(number) && withdrawn.get(number) === undefined;
  let begun: Begun | undefined;
  let planned: readonly PlannedPot[] | undefined;
  let sprayed: readonly string[] = [];
  let pot: Record<string, number> = {};
  let cans: Record<string, string> = {};
  let answer: Answered | undefined;
  let answeredAt = 0;
  let asked: Asked = NOTHING_ASKED;
  let isStirred = false;
  let firstCard = 0;
  const cards: PotCard[] = [];
  const comparisons: JobState["comparisons"][number][] = [];
  for (const { number, entry: noted } of entries) {
    if (isWithdrawn(number)) continue;
    const entry = withdrawn.get(number) ?? noted;
    switch (entry.kind) {
      case "job":
      case "plan": {
        if (begun !== undefined) throw refuse(number, "a record is of one job; there is one already");
        const { kind: _, ...what } = entry;
        begun = what;
        break;
      }
      case "planned":
        planned = plannedPots(entry.planned, `entry ${number}`);
        asked = { ...NOTHING_ASKED, grams: planned[0].pourNow };
        break;
      case "pour":
        pot = { ...pot, [entry.toner]: withoutTail(gramsOf(pot, entry.toner) + entry.grams) };
        if (entry.can !== undefined) cans = { ...cans, [entry.toner]: entry.can };
        asked = { ...asked, grams: afterPour(asked.grams, entry) };
        isStirred = true;
        break;
      case "pour-off":
        pot = afterPourOff(pot, entry.grams, number);
        asked = asked.gramsOff > 0 ? { ...asked, gramsOff: 0 } : NOTHING_ASKED;
        break;
      case "sprayed":
        pot = entry.grams < totalGrams(pot) ? afterPourOff(pot, entry.grams, number) : {};
        sprayed = [...sprayed, ...entry.panels];
        answer = undefined;
        asked = nextPot(planned, sprayed) ?? NOTHING_ASKED;
        break;
      case "new-pot":
        pot = {};
        firstCard = cards.length;
        asked = { ...asked, isNewPot: false };
        isStirred = false;
        answer = undefined;
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
        asked = NOTHING_ASKED;
        isStirred = false;
        break;
      case "comparison":
        if (!cards.some(({ name }) => name === entry.comparison.card)) {
          throw refuse(number, `there is no card "${entry.comparison.card}"`);
        }
        comparisons.push({ target: entry.target, comparison: entry.comparison });
        answer = undefined;
        asked = NOTHING_ASKED;
        break;
      case "answer":
        answer = entry;
        answeredAt = number;
        asked = askedBy(entry, `entry ${number}`);
        break;
      case "withdraw":
        // What was worked out from it counts no more either.
        if (answer === undefined || entry.entry > answeredAt) break;
        answer = undefined;
        asked = NOTHING_ASKED;
        break;
      case "note":
        break;
    }
  }
  const hasCard = cards.length > firstCard && isSeen(cards.at(-1), comparisons);
  const stages = planned?.flatMap((one) => one.stages);
  const next = nextStep({ begun, stages, sprayed, pot, asked, hasFreshCard: hasCard && !isStirred, answer });
  return {
    ...begun,
    pot,
    cans,
    cards,
    comparisons,
    firstCard,
    isStirred,
    stages: stages ?? [],
    sprayed,
    next,
  };
}

/** Whether a card was read, or compared with a panel. */
function isSeen(card: PotCard | undefined, comparisons: JobState["comparisons"]): boolean {
  if (card === undefined) return false;
  return isMeasured(card) || comparisons.some(({ comparison }) => comparison.card === card.name);
}

/** A toner may have the name of an object property, such as `constructor`. */
function gramsOf(pot: Grams, toner: string): number {
  return Object.hasOwn(pot, toner) ? pot[toner] : 0;
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
  const total = totalGrams(pot);
  if (grams >= total) throw refuse(number, `${grams} g cannot be poured off from ${withoutTail(total)} g`);
  return Object.fromEntries(
    Object.entries(pot).map(([toner, amount]) => [toner, withoutTail(amount * (1 - grams / total))]),
  );
}

/** Entries that count no more, and of pours that were others what they really were. */
function withdrawnEntries(
  entries: readonly DatedEntry[],
): ReadonlyMap<number, Extract<RecordEntry, { kind: "pour" }> | undefined> {
  const withdrawn = new Map<number, Extract<RecordEntry, { kind: "pour" }> | undefined>();
  for (const { number, entry } of entries) {
    if (entry.kind !== "withdraw") continue;
    const kind = entries[entry.entry]?.entry.kind;
    if (
      entry.entry >= number ||
      (kind !== "pour" && kind !== "pour-off" && kind !== "sprayed" && kind !== "card")
    ) {
      throw refuse(number, `entry ${entry.entry} is no earlier pour, pour-off, spraying or card`);
    }
    const { instead } = entry;
    if (instead && kind !== "pour") throw refuse(number, `entry ${entry.entry} is no pour`);
    withdrawn.set(entry.entry, instead && { kind: "pour", ...instead });
  }
  return withdrawn;
}

function refuse(number: number, reason: string): InputError {
  return new InputError("out-of-range", `entry ${number}`, reason);
}

/** The cards of the pot in use. What was poured off since the last one took the same share of everything. */
export function cardsOfPot({
  cards,
  firstCard,
}: JobState): readonly (Omit<PotCard, "pot"> & Partial<PotCard>)[] {
  const own = cards.slice(firstCard);
  return own.map(({ pot, ...card }, i) => (i < own.length - 1 ? { ...card, pot } : card));
}
