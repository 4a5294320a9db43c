import { element, type Markup } from "../chart/element.js";

/** What a sheet is of, so that it can be told from others on a bench. The library asks no clock: the date is brought. */
export interface SheetHead {
  readonly job?: string;
  readonly pot?: string;
  /** As it is to be read, such as 2026-03-31. */
  readonly date?: string;
}

/** The head of a sheet; what is not said is left blank, to be written in. */
export function sheetHead(head: SheetHead): Markup {
  const entries = [
    ["Job", head.job],
    ["Pot", head.pot],
    ["Date", head.date],
  ] as const;
  return element(
    "dl",
    { class: "head" },
    ...entries.map(([title, said = ""]) =>
      element(
        "div",
        {},
        element("dt", {}, title),
        element("dd", { class: said === "" ? "blank" : undefined }, said),
      ),
    ),
  );
}

/** The same at the top of every printed page, with its number, as rules for the page. */
export function printedHead(title: string, { job = "", pot = "", date = "" }: SheetHead = {}): string {
  const said = [title, job, pot, date].filter((text) => text !== "").join(" · ");
  return `@page{@top-left{content:${cssText(said)}}@top-right{content:'page ' counter(page) ' of ' counter(pages)}}`;
}

/** A text as a style sheet has it: whatever might mean something there is written by its code. */
function cssText(text: string): string {
  const letters = [...text].map((letter) =>
    /[\w .,:-]/.test(letter) ? letter : `\\${(letter.codePointAt(0) ?? 0).toString(16)} `,
  );
  return `'${letters.join("")}'`;
}
