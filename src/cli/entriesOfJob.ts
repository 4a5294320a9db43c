import { dirname, relative, resolve, sep } from "node:path";
import { checkText } from "../core/check.js";
import { checkHeader } from "../formats/header.js";
import { parseJson } from "../formats/json.js";
import { withReadings } from "../formats/withReadings.js";
import type { RecordEntry } from "../planning/record/recordEntry.js";
import { CARD, checkIsRead } from "../prediction/card.js";
import { checkGrams } from "../toners/pot.js";
import { TONER_SET, type TonerSet } from "../toners/tonerSet.js";
import { fromFile, textBeside, tonersBeside } from "./files.js";
import type { Terminal } from "./terminal.js";

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
      ...job
    } = withReadings(checkHeader(parseJson(text), "masstone/job"), textBeside(terminal, jobFile));
    const { toners } = tonersOfRecord(terminal, jobFile, job);
    const grams = pot === undefined ? {} : checkGrams(pot, "pot", toners);
    const named =
      typeof job.toners === "string" ? { ...job, toners: fromRecord(recordFile, jobFile, job.toners) } : job;
    return [
      { kind: "job", job: named },
      ...Object.entries(grams)
        .filter(([, amount]) => amount > 0)
        .map(([toner, amount]) => ({ kind: "pour", toner, grams: amount }) as const),
      ...(card === undefined ? [] : [cardEntry(card)]),
    ];
  });
}

function cardEntry(value: unknown): RecordEntry {
  const { readings, colours, name = "card 1" } = CARD.check(value, "card");
  checkIsRead({ readings, colours }, "card");
  return { kind: "card", name, readings, ...(colours.length > 0 && { colours }) };
}

/** The toner file as the record, which may lie in another folder, has to name it. */
function fromRecord(recordFile: string, jobFile: string, toners: string): string {
  const there = resolve(jobFile === "-" ? "." : dirname(jobFile), toners);
  return relative(resolve(dirname(recordFile)), there)
    .split(sep)
    .join("/");
}
