import type { Fault } from "../belief/fault.js";
import type { Correction } from "../correction/correction.js";
import type { DatedEntry } from "../record/recordEntry.js";
import { type Called, pastedCommand, typedAmount } from "./nextCommand.js";

/** Two figures are as much as a card can tell of a pour. */
const FIGURES = 2;

/** The line that sets a record right where the likeliest explanation of its card holds; empty where none is one entry's. */
export function mendCommand(
  { status, card }: Pick<Correction, "status" | "card">,
  entries: readonly DatedEntry[],
  called: Called,
): string {
  if (status !== "undetermined" || card.verdict === "believed") return "";
  const [likeliest] = card.explanations;
  const words = likeliest ? mended(likeliest.fault, entries, called) : [];
  return words.length === 0 ? "" : pastedCommand(["record", called.record, ...words], called);
}

function mended(fault: Fault, entries: readonly DatedEntry[], { unit }: Called): readonly string[] {
  if (fault.kind === "spike" || fault.kind === "offset" || fault.kind === "other") return [];
  if (fault.kind === "swapped-card") {
    const card = entries.findLast(({ entry }) => entry.kind === "card");
    return card ? ["--withdraw", String(card.number)] : [];
  }
  const noted = "noted" in fault ? fault.noted : Math.abs(fault.grams);
  const [pour, ...others] = poursOf(fault.toner, entries);
  // Where it was poured in several goes nobody knows which of them it was.
  if (pour === undefined || others.length > 0 || Math.abs(pour.grams - noted) > 1e-6) return [];
  const withdrawn = ["--withdraw", String(pour.number)];
  if (fault.kind === "not-poured") return withdrawn;
  if (fault.kind === "wrong-toner") {
    return [...withdrawn, "--pour", `${fault.poured}=${typedAmount(noted, unit)}`];
  }
  const really = Number((noted + fault.grams).toPrecision(FIGURES));
  return [...withdrawn, ...(really > 0 ? ["--pour", `${fault.toner}=${typedAmount(really, unit)}`] : [])];
}

/** What was poured of a toner for the last card, and counts. */
function poursOf(
  toner: string,
  entries: readonly DatedEntry[],
): readonly { readonly number: number; readonly grams: number }[] {
  const marks = entries.filter(({ entry }) => entry.kind === "card" || entry.kind === "new-pot");
  const first = marks.at(-2)?.number ?? -1;
  const last = marks.at(-1)?.number ?? entries.length;
  const withdrawn = new Set(entries.flatMap(({ entry }) => (entry.kind === "withdraw" ? [entry.entry] : [])));
  return entries.flatMap(({ number, entry }) =>
    entry.kind === "pour" &&
    entry.toner === toner &&
    number > first &&
    number < last &&
    !withdrawn.has(number)
      ? [{ number, grams: entry.grams }]
      : [],
  );
}
