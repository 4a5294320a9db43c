import type { BenchStep, JobState } from "../planning/record/jobState.js";
import type { DatedEntry, RecordEntry } from "../planning/record/recordEntry.js";
import { gramsText } from "./gramsText.js";
import { textTable } from "./textTable.js";
import { type TonerNames, tonerName } from "./tonerName.js";

/** How a job stands, for the person at the bench: what was noted just now, what is in the pot, what is next. */
export function jobStateText(
  { pot, cans, cards, next }: JobState,
  {
    names,
    remarks,
    added,
  }: {
    readonly names: TonerNames;
    readonly remarks: readonly string[];
    readonly added: readonly DatedEntry[];
  },
): string {
  const total = Object.values(pot).reduce((sum, grams) => sum + grams, 0);
  const rows = Object.entries(pot).map(([toner, grams]) => [
    tonerName(names, toner),
    gramsText(grams),
    Object.hasOwn(cans, toner) ? `can ${cans[toner]}` : "",
  ]);
  const last = cards.at(-1);
  const blocks = [
    `Next: ${nextText(next, names)}`,
    ...(remarks.length > 0 ? [remarks.map((remark) => `! ${remark}`).join("\n")] : []),
    ...(added.length > 0
      ? [`Noted:\n${added.map(({ number, entry }) => `  ${number}  ${entryText(entry, names)}`).join("\n")}`]
      : []),
    rows.length === 0
      ? "The pot is empty."
      : `In the pot, ${gramsText(total)} g:\n\n${textTable([["toner", "grams", ""], ...rows], { right: [1] })}`,
    last === undefined
      ? "No card yet."
      : `Last of ${cards.length} card${cards.length === 1 ? "" : "s"}: ${last.name}.`,
  ];
  return `${blocks.join("\n\n")}\n`;
}

function nextText(next: BenchStep, names: TonerNames): string {
  switch (next.kind) {
    case "start":
      return "begin with a job (--job JOB).";
    case "pour":
      return next.pours.length === 0
        ? "pour the first pot, and note what the scale shows (--pour TONER=GRAMS)."
        : `pour ${next.pours.map(({ toner, grams }) => `${gramsText(grams)} g ${tonerName(names, toner)}`).join(", ")}.`;
    case "read-card":
      return "stir, spray a card, let it dry, read it (--card READINGS).";
    case "correct":
      return "masstone correct JOB --record RECORD.";
    case "done":
      return next.status === "good-enough"
        ? "nothing: the last card is within tolerance."
        : `nothing more can be added (${next.status}).`;
  }
}

function entryText(entry: RecordEntry, names: TonerNames): string {
  switch (entry.kind) {
    case "job":
      return "the job";
    case "pour":
      return `${gramsText(entry.grams)} g ${tonerName(names, entry.toner)}${entry.can === undefined ? "" : `, can ${entry.can}`}`;
    case "pour-off":
      return `${gramsText(entry.grams)} g poured off`;
    case "card":
      return `${entry.name}, read`;
    case "answer":
      return `a correction (${entry.answer.status})`;
    case "withdraw":
      return `entry ${entry.entry} counts no more`;
    case "note":
      return entry.text;
  }
}
