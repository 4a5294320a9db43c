import { dirname, relative, resolve, sep } from "node:path";
import { checkText } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { list } from "../core/shape/list.js";
import { checkHeader } from "../formats/header.js";
import { parseJson } from "../formats/json.js";
import { readPlan } from "../formats/readPlan.js";
import { withReadings } from "../formats/withReadings.js";
import { withoutTail } from "../numeric/scalar/withoutTail.js";
import { CARD_COUNT, JOB_CARD } from "../problem/job.js";
import type { RecordEntry } from "../record/recordEntry.js";
import { CARD, checkIsRead } from "../scene/card.js";
import type { MassUnit } from "../toners/massUnit.js";
import { checkGrams, type Grams } from "../toners/pot.js";
import { TONER_SET, type TonerSet } from "../toners/tonerSet.js";
import { fromFile, textBeside, tonersBeside } from "./files.js";
import type { Terminal } from "./terminal.js";
import type { Asked } from "./verb.js";

/** The toners of a record's job, which stand in it or in a file beside the record. */
export function tonersOfRecord(
  terminal: Terminal,
  recordFile: string,
  { toners }: Readonly<Record<string, unknown>>,
): TonerSet {
  if (typeof toners !== "string") return TONER_SET.check(toners, "toners");
  return tonersBeside(terminal, recordFile)(checkText(toners, "toners"));
}

/** The entries that a masstone/job file makes: the job itself, its pot as pours, its card where it has one. */
export function entriesOfJob(
  terminal: Terminal,
  recordFile: string,
  jobFile: string,
): readonly RecordEntry[] {
  return fromFile(terminal, jobFile, (text) => {
    const {
      format: _,
      version: __,
      pot,
      card,
      cards,
      ...job
    } = withReadings(checkHeader(parseJson(text), "masstone/job"), textBeside(terminal, jobFile));
    const { toners } = tonersOfRecord(terminal, jobFile, job);
    const grams = pot === undefined ? {} : checkGrams(pot, "pot", toners);
    const named =
      typeof job.toners === "string" ? { ...job, toners: fromRecord(recordFile, jobFile, job.toners) } : job;
    return [
      { kind: "job", job: named },
      ...(cards === undefined ? [] : entriesOfCards(cards, grams, toners)),
      ...(cards === undefined ? poursBetween({}, grams, "pot") : []),
      ...(card === undefined ? [] : [cardEntry(card)]),
    ];
  });
}

function cardEntry(value: unknown): RecordEntry {
  const { readings, colours, name = "card 1" } = CARD.check(value, "card");
  checkIsRead({ readings, colours }, "card");
  return { kind: "card", name, readings, ...(colours.length > 0 && { colours }) };
}

/** The pours before each card, and the card. */
function entriesOfCards(cards: unknown, pot: Grams, toners: TonerSet["toners"]): readonly RecordEntry[] {
  let before: Grams = {};
  return list(JOB_CARD, CARD_COUNT)
    .check(cards, "cards")
    .flatMap(({ name, pot: then = pot, readings = [], colours = [] }, i): readonly RecordEntry[] => {
      const path = `cards[${i}].pot`;
      const pours = poursBetween(before, checkGrams(then, path, toners), path);
      before = then;
      const read = { readings, ...(colours.length > 0 && { colours }) };
      return [...pours, { kind: "card", name: name ?? `card ${i + 1}`, ...read }];
    });
}

/** What was poured between two states of a pot. */
function poursBetween(before: Grams, after: Grams, path: string): readonly RecordEntry[] {
  return [...new Set([...Object.keys(before), ...Object.keys(after)])].flatMap((toner) => {
    const of = (grams: Grams) => (Object.hasOwn(grams, toner) ? grams[toner] : 0);
    const grams = withoutTail(of(after) - of(before));
    if (grams < 0) {
      throw new InputError(
        "out-of-range",
        path,
        `less ${toner} than before: a record tells that by --pour-off`,
      );
    }
    return grams > 0 ? [{ kind: "pour", toner, grams }] : [];
  });
}

/** The entries that begin a record, with the unit that it is kept in; none of other options. */
export function entriesToBegin(
  terminal: Terminal,
  recordFile: string,
  [detail, file]: Asked["details"][number],
  unit: MassUnit | undefined,
): readonly RecordEntry[] {
  const kept = unit === undefined ? {} : { unit };
  if (detail === "plan") return [{ ...entryOfPlan(terminal, recordFile, file), ...kept }];
  if (detail !== "job") return [];
  return entriesOfJob(terminal, recordFile, file).map((entry) =>
    entry.kind === "job" ? { ...entry, ...kept } : entry,
  );
}

/** The entry that a masstone/plan file makes. */
function entryOfPlan(
  terminal: Terminal,
  recordFile: string,
  planFile: string,
): Extract<RecordEntry, { kind: "plan" }> {
  return fromFile(terminal, planFile, (text) => {
    const findText = textBeside(terminal, planFile);
    readPlan(text, tonersBeside(terminal, planFile), findText);
    const read = withReadings(checkHeader(parseJson(text), "masstone/plan"), findText);
    const { format: _, version: __, ...plan } = read;
    const { toners } = plan;
    return {
      kind: "plan",
      plan: typeof toners === "string" ? { ...plan, toners: fromRecord(recordFile, planFile, toners) } : plan,
    };
  });
}

/** The toner file as the record, which may lie in another folder, has to name it. */
function fromRecord(recordFile: string, jobFile: string, toners: string): string {
  const there = resolve(jobFile === "-" ? "." : dirname(jobFile), toners);
  return relative(resolve(dirname(recordFile)), there)
    .split(sep)
    .join("/");
}
