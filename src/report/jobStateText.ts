import type { BenchStep, JobState } from "../planning/record/jobState.js";
import type { DatedEntry, RecordEntry } from "../planning/record/recordEntry.js";
import { IN_GRAMS, type MassDisplay, massCell, massHead, massText, uncalibratedText } from "./massText.js";
import { textTable } from "./textTable.js";
import { type TonerNames, tonerName } from "./tonerName.js";

/** How a job stands, for the person at the bench: what was noted just now, what is in the pot, what is next. */
export function jobStateText(
  { pot, cans, cards, next }: JobState,
  {
    names,
    remarks,
    added,
    display = IN_GRAMS,
  }: {
    readonly names: TonerNames;
    readonly remarks: readonly string[];
    readonly added: readonly DatedEntry[];
    readonly display?: MassDisplay;
  },
): string {
  const total = Object.values(pot).reduce((sum, grams) => sum + grams, 0);
  const rows = Object.entries(pot).map(([toner, grams]) => [
    tonerName(names, toner),
    massCell(grams, display, toner),
    Object.hasOwn(cans, toner) ? `can ${cans[toner]}` : "",
  ]);
  const last = cards.at(-1);
  const blocks = [
    `Next: ${nextText(next, names, display)}`,
    ...(remarks.length > 0 ? [remarks.map((remark) => `! ${remark}`).join("\n")] : []),
    ...(added.length > 0
      ? [
          `Noted:\n${added.map(({ number, entry }) => `  ${number}  ${entryText(entry, names, display)}`).join("\n")}`,
        ]
      : []),
    rows.length === 0
      ? "The pot is empty."
      : `In the pot, ${massText(total, display)}:\n\n${textTable([["toner", massHead(display), ""], ...rows], { right: [1] })}`,
    last === undefined
      ? "No card yet."
      : `Last of ${cards.length} card${cards.length === 1 ? "" : "s"}: ${last.name}.`,
  ];
  const shown = [...Object.keys(pot), ...(next.kind === "pour" ? next.pours.map(({ toner }) => toner) : [])];
  const uncalibrated = uncalibratedText(display, shown, (id) => tonerName(names, id));
  return `${[...blocks, ...(uncalibrated === "" ? [] : [uncalibrated])].join("\n\n")}\n`;
}

function nextText(next: BenchStep, names: TonerNames, display: MassDisplay): string {
  switch (next.kind) {
    case "start":
      return "begin with a job (--job JOB).";
    case "pour":
      return next.pours.length === 0
        ? "pour the first pot, and note what the scale shows (--pour TONER=GRAMS)."
        : `pour ${next.pours.map(({ toner, grams }) => `${massText(grams, display, toner)} ${tonerName(names, toner)}`).join(", ")}.`;
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

function entryText(entry: RecordEntry, names: TonerNames, display: MassDisplay): string {
  switch (entry.kind) {
    case "job":
      return "the job";
    case "pour":
      return `${massText(entry.grams, display, entry.toner)} ${tonerName(names, entry.toner)}${entry.can === undefined ? "" : `, can ${entry.can}`}`;
    case "pour-off":
      return `${massText(entry.grams, display)} poured off`;
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
