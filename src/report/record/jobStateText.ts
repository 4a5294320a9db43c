import { SHORT_CAUTION } from "../../core/caution.js";
import { lyingSo } from "../../problem/spray/flakeWords.js";
import type { BenchStep } from "../../record/benchStep.js";
import type { JobState } from "../../record/jobState.js";
import type { DatedEntry, RecordEntry } from "../../record/recordEntry.js";
import { isMeasured } from "../../scene/card.js";
import { totalGrams } from "../../toners/pot.js";
import { fitTable, shortened } from "../words/fitTable.js";
import {
  IN_GRAMS,
  inGramsText,
  type MassDisplay,
  massCell,
  massHead,
  massText,
  uncalibratedText,
} from "../words/massText.js";
import { MOST_ROWS, recipeText } from "../words/recipeText.js";
import { lines, screenText } from "../words/screenText.js";
import { textTable } from "../words/textTable.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";

/** Further input of the text of a job's state. */
export interface JobStateTextOptions {
  readonly names: TonerNames;
  readonly remarks: readonly string[];
  readonly added: readonly DatedEntry[];
  readonly display?: MassDisplay;
  /** The line that goes on from here. */
  readonly command?: string;
}

/** Most entries and remarks on a screen. */
const MOST_TOLD = 3;

/** Most letters of a name and of an entry. */
const MOST_LETTERS = 30;
const MOST_OF_ENTRY = 72;

/** How a job stands, on one screen: what is next, what was noted just now, what is in the pot. */
export function jobStateText(state: JobState, options: JobStateTextOptions): string {
  const { pot, cards, next } = state;
  const { names, remarks, added, display = IN_GRAMS, command = "" } = options;
  const nameOf = (id: string) => shortened(tonerName(names, id), MOST_LETTERS);
  const notes = added.map(({ number, entry }) =>
    shortened(`  ${number}  ${entryText(entry, nameOf, display).replace(/\s+/g, " ")}`, MOST_OF_ENTRY),
  );
  const earlier = notes.length - MOST_TOLD;
  const isSprayed =
    next.kind === "read-card" ||
    next.kind === "respray" ||
    (next.kind === "done" && next.status === "good-enough");
  const last = cards.at(-1);
  return screenText([
    lines(`Next: ${nextText(next, nameOf, display)}`, isSprayed ? SHORT_CAUTION : ""),
    remarks
      .slice(0, 2)
      .map((remark) => shortened(`! ${remark}`, 2 * MOST_OF_ENTRY))
      .join("\n"),
    notes.length === 0
      ? ""
      : lines("Noted:", earlier > 0 ? `  ${earlier} before these` : "", ...notes.slice(-MOST_TOLD)),
    lines(potText(state, nameOf, display), inGramsText(display, Object.keys(pot))),
    last === undefined
      ? "No card yet."
      : `Last of ${cards.length} card${cards.length === 1 ? "" : "s"}: ${shortened(last.name, MOST_LETTERS)}.`,
    next.kind === "done" ? "" : command,
  ]);
}

/** The whole pot, all that was noted just now, all remarks. */
export function jobStateDetails(
  { pot, cans }: JobState,
  { names, remarks, added, display = IN_GRAMS }: JobStateTextOptions,
): string {
  const nameOf = (id: string) => tonerName(names, id);
  const blocks = [
    `In the pot:\n\n${textTable([["toner", massHead(display), ""], ...potRows(pot, cans, { nameOf, display })], { right: [1] })}`,
    added.length === 0
      ? ""
      : `Noted:\n\n${added.map(({ number, entry }) => `  ${number}  ${entryText(entry, nameOf, display)}`).join("\n")}`,
    remarks.map((remark) => `! ${remark}`).join("\n"),
    uncalibratedText(display, Object.keys(pot), nameOf),
  ];
  return `${blocks.filter((block) => block !== "").join("\n\n")}\n`;
}

type NameOf = (id: string) => string;

function potText({ pot, cans }: JobState, nameOf: NameOf, display: MassDisplay): string {
  const held = Object.entries(pot).filter(([, grams]) => grams > 0);
  if (held.length === 0) return "The pot is empty.";
  const total = totalGrams(pot);
  const title = `In the pot, ${massText(total, display)}:`;
  if (held.length > MOST_ROWS + 2) return lines(title, recipeText(pot, nameOf, display));
  const rows = potRows(Object.fromEntries(held), cans, { nameOf, display });
  return lines(title, fitTable({ head: ["toner", massHead(display), ""], rows, right: [1] }, 0));
}

function potRows(
  pot: JobState["pot"],
  cans: JobState["cans"],
  { nameOf, display }: { readonly nameOf: NameOf; readonly display: MassDisplay },
): readonly (readonly string[])[] {
  return Object.entries(pot).map(([toner, grams]) => [
    nameOf(toner),
    massCell(grams, display, toner),
    Object.hasOwn(cans, toner) ? shortened(`can ${cans[toner]}`, MOST_LETTERS) : "",
  ]);
}

function nextText(next: BenchStep, nameOf: NameOf, display: MassDisplay): string {
  switch (next.kind) {
    case "start":
      return "begin with a job (--job JOB).";
    case "pour":
      return next.pours.length === 0
        ? "pour the first pot, and note what the scale shows (--pour TONER=GRAMS)."
        : `pour ${next.pours.map(({ toner, grams }) => `${massText(grams, display, toner)} ${nameOf(toner)}`).join(", ")}${next.tilt === undefined ? "" : `; then spray a card with ${lyingSo(next.tilt)}`}.`;
    case "read-card":
      return next.isSameCard
        ? "read the card once more (--card READINGS), or look for what was noted wrongly."
        : "stir, spray a card, let it dry, read it (--card READINGS), or compare it.";
    case "compare":
      return `hold ${next.look.target} beside ${next.look.card} under ${next.look.illuminant}.`;
    case "respray":
      return `stir, spray a card with ${lyingSo(next.tilt)}, let it dry, read it (--card READINGS).`;
    case "plan":
      return "let the first pot be planned:";
    case "correct":
      return "let it be worked out from the card:";
    case "spray":
      return `spray ${next.panels.join(", ")}, ${massText(next.grams, display)} (--sprayed PANEL=GRAMS).`;
    case "done":
      if (next.status === "good-enough") return "nothing: the last card is within tolerance.";
      return next.status === "other-flake"
        ? "nothing with this pot: look for a formula with another flake, and begin another pot (--new-pot yes)."
        : `nothing more can be added (${next.status}).`;
  }
}

function entryText(entry: RecordEntry, nameOf: NameOf, display: MassDisplay): string {
  switch (entry.kind) {
    case "job":
      return "the job";
    case "plan":
      return "the plan";
    case "planned":
      return `a first pot was planned (${entry.planned.status})`;
    case "sprayed":
      return `${entry.panels.join(", ")} painted, ${massText(entry.grams, display)}`;
    case "new-pot":
      return "another pot is begun";
    case "pour":
      return `${massText(entry.grams, display, entry.toner)} ${nameOf(entry.toner)}${entry.can === undefined ? "" : `, can ${entry.can}`}`;
    case "pour-off":
      return `${massText(entry.grams, display)} poured off`;
    case "card":
      return `${entry.name}, ${isMeasured(entry) ? "read" : "sprayed"}`;
    case "comparison":
      return `${entry.target} beside ${entry.comparison.card} under ${entry.comparison.illuminant}`;
    case "answer":
      return `a correction (${entry.answer.status})`;
    case "withdraw":
      return entry.instead
        ? `entry ${entry.entry} was really ${massText(entry.instead.grams, display, entry.instead.toner)} ${nameOf(entry.instead.toner)}`
        : `entry ${entry.entry} counts no more`;
    case "note":
      return entry.text;
  }
}
