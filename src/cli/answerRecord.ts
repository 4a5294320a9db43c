import { InputError } from "../core/InputError.js";
import { typedNumber } from "../core/typedNumber.js";
import { checkLimits, LIMITS } from "../correction/limits.js";
import { readReadings } from "../formats/readReadings.js";
import { type JobStateRecord, jobState } from "../planning/record/jobState.js";
import type { RecordEntry } from "../planning/record/recordEntry.js";
import { RECORD_ENTRY_SHAPE } from "../planning/record/recordEntryShape.js";
import { jobStateDetails, jobStateText } from "../report/jobStateText.js";
import { tonerNames } from "../report/tonerName.js";
import { checkGrams, type Grams } from "../toners/pot.js";
import { typedGrams } from "../toners/typedGrams.js";
import { displayOf } from "./displayOf.js";
import { entriesOfJob, tonersOfRecord } from "./entriesOfJob.js";
import { fromFile } from "./files.js";
import { appendEntries, openRecord } from "./openRecord.js";
import type { Terminal } from "./terminal.js";
import type { Answer, Asked } from "./verb.js";

/** Notes what the command line says in a record, all of it or nothing, and tells how the job stands. */
export function answerRecord(terminal: Terminal, file: string, { unit, details }: Asked): Answer {
  const open = openRecord(terminal, file);
  const cans = Object.fromEntries(
    details.filter(([detail]) => detail === "can").map(([, value]) => pair(value, "--can")),
  );
  const entries: RecordEntry[] = [];
  for (const detail of details) {
    const noted = [...open.record.entries.map(({ entry }) => entry), ...entries];
    entries.push(...entriesOf(terminal, file, detail, { cans, drops: dropsIn(noted) }));
  }
  const next = open.record.entries.length;
  const all = [
    ...open.record.entries,
    ...entries.map((entry, i) => ({
      number: next + i,
      at: terminal.now(),
      entry: RECORD_ENTRY_SHAPE.check(entry, ""),
    })),
  ];
  const state = jobState(all);
  if (state.job === undefined && all.length > 0) {
    throw new InputError("missing", file, "a record begins with its job: add --job JOB");
  }
  const toners = state.job && tonersOfRecord(terminal, file, state.job);
  if (toners) checkGrams(state.pot, "pot", toners.toners);
  const after = appendEntries(terminal, open, entries);
  const display = displayOf(unit, toners && checkLimits(state.job?.limits ?? {}, "limits", toners.toners));
  const told = {
    names: toners ? tonerNames(toners) : {},
    remarks: open.remarks,
    added: after.record.entries.slice(next),
    display,
  };
  return {
    record: {
      format: "masstone/job-state",
      version: 1,
      entries: after.record.entries.length,
      pot: state.pot,
      cans: state.cans,
      cards: state.cards.map(({ name, pot }) => ({ name, pot })),
      next: state.next,
      remarks: open.remarks,
    } satisfies JobStateRecord,
    text: () => jobStateText(state, told),
    more: () => jobStateDetails(state, told),
  };
}

function entriesOf(
  terminal: Terminal,
  file: string,
  [detail, value]: Asked["details"][number],
  { cans, drops }: { readonly cans: Readonly<Record<string, string>>; readonly drops: Grams },
): readonly RecordEntry[] {
  switch (detail) {
    case "job":
      return entriesOfJob(terminal, file, value);
    case "pour": {
      const [toner, grams] = pair(value, "--pour");
      const can = Object.hasOwn(cans, toner) ? { can: cans[toner] } : {};
      const drop = Object.hasOwn(drops, toner) ? drops[toner] : undefined;
      return [{ kind: "pour", toner, grams: typedGrams(grams, "--pour", drop), ...can }];
    }
    case "pour-off":
      return [{ kind: "pour-off", grams: typedGrams(value, "--pour-off") }];
    case "card":
      return [cardFrom(terminal, value)];
    case "withdraw":
      return [{ kind: "withdraw", entry: entryNumber(value, "--withdraw") }];
    case "note":
      return [{ kind: "note", text: value }];
    default:
      return [];
  }
}

function cardFrom(terminal: Terminal, value: string): RecordEntry {
  const [file, wanted] = value.split("#");
  const { readings } = fromFile(terminal, file, (text) =>
    readReadings(text, { name: file, declared: {} }, "--card"),
  );
  const names = [...new Set(readings.map(({ name }) => name))];
  const name = wanted ?? names[0];
  if (wanted === undefined && names.length > 1) {
    throw new InputError(
      "usage",
      "--card",
      `${file} has several readings: say ${file}#NAME, NAME being one of ${names.join(", ")}`,
    );
  }
  const own = readings.filter((one) => one.name === name);
  if (own.length === 0) throw new InputError("missing", "--card", `${file} has no reading "${name}"`);
  return { kind: "card", name, readings: own.map(({ reading }) => reading) };
}

function pair(value: string, option: string): readonly [string, string] {
  const at = value.lastIndexOf("=");
  if (at > 0 && at < value.length - 1) return [value.slice(0, at), value.slice(at + 1)];
  throw new InputError("usage", option, `"${value}" is no pair; write it as white=12.5`);
}

function entryNumber(typed: string, option: string): number {
  const { value, unit } = typedNumber(typed, option);
  if (unit === "") return value;
  throw new InputError("wrong-type", option, `"${typed}" is not the number of an entry`);
}

/** What a drop weighs, by toner id, as the job of a record says. */
function dropsIn(entries: readonly RecordEntry[]): Grams {
  const job = entries.find((entry) => entry.kind === "job")?.job;
  return LIMITS.check(job?.limits ?? {}, "limits").gramsPerDrop ?? {};
}
