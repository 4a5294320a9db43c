import { SPRAYING_CAUTION } from "../core/caution.js";
import { InputError } from "../core/InputError.js";
import { typedNumber } from "../core/typedNumber.js";
import { type Declared, SCALE } from "../formats/declared.js";
import { readReadings } from "../formats/readReadings.js";
import { checkLimits, LIMITS } from "../problem/limits.js";
import { type JobState, type JobStateRecord, jobState, withEntries } from "../record/jobState.js";
import type { Poured, RecordEntry } from "../record/recordEntry.js";
import { RECORD_ENTRY_SHAPE } from "../record/recordEntryShape.js";
import { jobStateDetails, jobStateText } from "../report/record/jobStateText.js";
import { tonerNames } from "../report/words/tonerName.js";
import { GEOMETRY } from "../surface/geometry.js";
import type { MassUnit } from "../toners/massUnit.js";
import { checkGrams, type Grams } from "../toners/pot.js";
import { typedGrams } from "../toners/typedGrams.js";
import { displayOf } from "./displayOf.js";
import { entriesToBegin, tonersOfRecord } from "./entriesOfJob.js";
import { fromFile } from "./files.js";
import { nextCommand } from "./nextCommand.js";
import { appendEntries, openRecord } from "./openRecord.js";
import { pairOf } from "./pairOf.js";
import type { Terminal } from "./terminal.js";
import { type Answer, type Asked, detailOf } from "./verb.js";

/** Notes what the command line says in a record, all of it or nothing, and tells how the job stands. */
export function answerRecord(terminal: Terminal, file: string, { unit: asked, details }: Asked): Answer {
  const open = openRecord(terminal, file);
  const cans = Object.fromEntries(
    details.filter(([detail]) => detail === "can").map(([, value]) => pairOf(value, "--can")),
  );
  const entries: RecordEntry[] = [];
  details.forEach((detail, i) => {
    // A pour right behind what is withdrawn stands in its place.
    if (detail[0] === "pour" && details[i - 1]?.[0] === "withdraw") return;
    const [kind, value] = details[i + 1] ?? [];
    const instead = kind === "pour" ? value : undefined;
    const noted = [...open.record.entries.map(({ entry }) => entry), ...entries];
    entries.push(...entriesOf(terminal, file, detail, { cans, noted, details, asked, instead }));
  });
  const next = open.record.entries.length;
  const checked = entries.map((entry) => RECORD_ENTRY_SHAPE.check(entry, ""));
  const state = jobState(withEntries(open.record.entries, checked));
  const begun = state.job ?? state.plan;
  if (begun === undefined) {
    const reason = "there is no such record, and a record begins with its job: add --job JOB, or --plan PLAN";
    throw new InputError("missing", file, reason);
  }
  const unit = asked ?? state.unit ?? "g";
  if (state.unit !== undefined && unit !== state.unit) {
    throw new InputError("usage", "--unit", `this record is kept in ${state.unit}; leave --unit out`);
  }
  const toners = tonersOfRecord(terminal, file, begun);
  checkGrams(state.pot, "pot", toners.toners);
  checkSprayed(state);
  const after = appendEntries(terminal, open, entries);
  const display = displayOf(unit, checkLimits(begun.limits ?? {}, "limits", toners.toners));
  const told = {
    names: tonerNames(toners),
    remarks: open.remarks,
    added: after.record.entries.slice(next),
    display,
    command: nextCommand(state.next, { record: file, unit, program: terminal.program }),
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
      sprayed: state.sprayed,
      caution: SPRAYING_CAUTION,
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
  noting: Noting,
): readonly RecordEntry[] {
  const { noted, details, asked, instead } = noting;
  const unit = asked ?? unitIn(noted);
  switch (detail) {
    case "job":
    case "plan":
      return entriesToBegin(terminal, file, [detail, value], asked);
    case "sprayed": {
      const [panel, grams] = pairOf(value, "--sprayed");
      return [{ kind: "sprayed", panels: [panel], grams: typedGrams(grams, "--sprayed", { unit }) }];
    }
    case "new-pot":
      return [{ kind: "new-pot" }];
    case "pour":
      return [{ kind: "pour", ...pouredAs(value, noting) }];
    case "pour-off":
      return [{ kind: "pour-off", grams: typedGrams(value, "--pour-off", { unit }) }];
    case "card":
      return [cardFrom(terminal, value, declaredIn(details))];
    case "withdraw":
      return [
        {
          kind: "withdraw",
          entry: entryNumber(value, "--withdraw"),
          ...(instead !== undefined && { instead: pouredAs(instead, noting) }),
        },
      ];
    case "note":
      return [{ kind: "note", text: value }];
    default:
      return [];
  }
}

/** What `--pour` says: the toner, its grams, its can. */
function pouredAs(value: string, { cans, noted, asked }: Noting): Poured {
  const [toner, grams] = pairOf(value, "--pour");
  const drops = dropsIn(noted);
  const gramsPerDrop = Object.hasOwn(drops, toner) ? drops[toner] : undefined;
  return {
    toner,
    grams: typedGrams(grams, "--pour", { gramsPerDrop, unit: asked ?? unitIn(noted) }),
    ...(Object.hasOwn(cans, toner) && { can: cans[toner] }),
  };
}

function cardFrom(terminal: Terminal, value: string, declared: Declared): RecordEntry {
  const [file, wanted] = value.split("#");
  const { readings } = fromFile(terminal, file, (text) =>
    readReadings(text, { name: file, declared }, "--card"),
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

function entryNumber(typed: string, option: string): number {
  const { value, unit } = typedNumber(typed, option);
  if (unit === "") return value;
  throw new InputError("wrong-type", option, `"${typed}" is not the number of an entry`);
}

/** What is known while an entry is made. */
interface Noting {
  readonly cans: Readonly<Record<string, string>>;
  /** All entries before it. */
  readonly noted: readonly RecordEntry[];
  readonly details: Asked["details"];
  readonly asked: MassUnit | undefined;
  /** What a `--pour` right behind it says. */
  readonly instead: string | undefined;
}

/** What the file of a card does not say itself. */
function declaredIn(details: Asked["details"]): Declared {
  const scale = detailOf(details, "scale");
  const geometry = detailOf(details, "geometry");
  return {
    ...(scale !== undefined && { scale: SCALE.check(scale, "--scale") }),
    ...(geometry !== undefined && { geometry: GEOMETRY.check(geometry, "--geometry") }),
  };
}

/** Panels that are painted are panels of the plan. */
function checkSprayed({ sprayed, stages }: JobState): void {
  const panels = stages.flatMap((stage) => stage.panels);
  const stray = sprayed.find((panel) => !panels.includes(panel));
  if (stray === undefined) return;
  const there = panels.length === 0 ? "nothing is planned yet" : `those are ${panels.join(", ")}`;
  throw new InputError("unknown-word", "--sprayed", `"${stray}" is no panel of this record: ${there}`);
}

const begunIn = (entries: readonly RecordEntry[]) =>
  entries.find((entry) => entry.kind === "job" || entry.kind === "plan");

const unitIn = (entries: readonly RecordEntry[]): MassUnit | undefined => begunIn(entries)?.unit;

/** What a drop weighs, by toner id, as the job or plan of a record says. */
function dropsIn(entries: readonly RecordEntry[]): Grams {
  const begun = begunIn(entries);
  const { limits = {} } = begun?.kind === "job" ? begun.job : (begun?.plan ?? {});
  return LIMITS.check(limits, "limits").gramsPerDrop ?? {};
}
