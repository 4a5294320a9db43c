import type { Certificate } from "../../certificate/records/certificate.js";
import { SPRAYING_CAUTION } from "../../core/caution.js";
import { perCent } from "../../core/perCent.js";
import { sum } from "../../core/sum.js";
import type { Correction, WayOut } from "../../correction/correction.js";
import { correctionSpectra } from "../../correction/correctionSpectra.js";
import type { NextStep } from "../../planning/nextStep/nextStep.js";
import type { Job } from "../../problem/job.js";
import { element, type Markup } from "../chart/element.js";
import type { NotebookFigure } from "../chart/notebookFigure.js";
import { htmlPage } from "../page/htmlPage.js";
import { htmlTable } from "../page/htmlTable.js";
import { pourTable } from "../page/pourTable.js";
import { beware, listed, section } from "../page/sections.js";
import type { SheetHead } from "../page/sheetHead.js";
import { anglePlot } from "../plots/anglePlot.js";
import { differencePlot } from "../plots/differencePlot.js";
import { labPlot } from "../plots/labPlot.js";
import { IN_GRAMS, type MassDisplay, massText } from "../words/massText.js";
import { recipeTable } from "../words/recipeText.js";
import { stepToTake } from "../words/stepToTake.js";
import type { Table } from "../words/table.js";
import { type TonerNames, tonerName, tonerNames } from "../words/tonerName.js";
import { withoutColumns } from "../words/withoutColumns.js";
import { certificateText } from "./certificateText.js";
import { correctionHeadline } from "./correctionHeadline.js";
import { type CorrectionNotes, correctionNotes } from "./correctionNotes.js";
import { correctionTables } from "./correctionTables.js";
import { flopText, isOfPours, predictedOf } from "./flopText.js";
import { expectation, type Instruction, instruction, NOTHING_SPRAYED } from "./instruction.js";
import { looks, shownAfter } from "./looks.js";
import { withNextCard } from "./withNextCard.js";

/** What a sheet may show beside the correction itself. */
export interface CorrectionHtmlOptions {
  /** What to call the toners, before the names in the toner set. */
  readonly names?: TonerNames;
  /** What `certify` says of the correction. */
  readonly certificate?: Certificate;
  /** What `adviseNextStep` says of the correction. */
  readonly nextStep?: NextStep;
  /** The unit of the amounts. */
  readonly display?: MassDisplay;
  /** What stands in the head; of the pot its grams when absent, of the rest a blank to write in. */
  readonly head?: SheetHead;
}

/** So that a usual job keeps to one sheet. */
const LAB_HEIGHT = 116;

const FLOP_CAPTION = "Flop index (Alman 1987), face and flop";

/** Columns of the table of differences: words, which are said beside the swatches, and what is predicted. */
const WORDS = ["against the target it will be", "against the target it is"];
const THEN = ["after", "next card"];

/**
 * A correction as one HTML file that needs nothing else: a sheet for the bench. What to do now first, with room to tick and
 * to write what was really poured, then what to beware of, swatches, differences, the way in Lab and off the targets, the
 * safety caution last; light and dark, one sheet of A4 for a job of usual size, no scripts. `job` is what was corrected.
 * Throws what `correct` throws.
 */
export function correctionHtml(
  job: Job,
  correction: Correction,
  { names = {}, certificate, nextStep, display = IN_GRAMS, head = {} }: CorrectionHtmlOptions = {},
): string {
  const named = tonerNames(job.toners, names);
  const nameOf = (id: string) => tonerName(named, id);
  const { additions, potGramsAfter, warnings, wayOut } = correction;
  const step = stepToTake(correction, nextStep);
  const isTinted = isOfPours(correction);
  const proof =
    certificate && isTinted ? certificateText(certificate, nameOf).split("\n").filter(Boolean) : [];
  const { differences, flop, obstacles } = correctionTables(correction, named, display);
  const told = instruction(correction, step, { nameOf, display, prices: nextStep?.prices });
  // There are no predictions where no additions were computed.
  const isTold = correction.status !== "undetermined";
  const inPot = potGramsAfter - sum(additions.map(({ grams }) => grams));
  const isSprayed = !NOTHING_SPRAYED.includes(step.step);
  const isOut = correction.status === "out-of-reach";
  const isFlop = flop.rows.length > 0;
  const ways = () =>
    (["a*b*", "C*L*"] as const).map((plane) =>
      drawn(labPlot(correction, named, { height: LAB_HEIGHT, display, plane })),
    );
  return htmlPage(
    "Correction of a pot",
    [
      element(
        "p",
        { class: "headline" },
        correctionHeadline(correction, { step: step.step, withinNow: nextStep?.withinNow ?? null }),
      ),
      ...[flopText(correction)].filter(Boolean).map((line) => element("p", {}, line)),
      ...listed(
        "What is in the way",
        isOut ? [...obstacles, ...proof.map((line) => line.replace(/^- /, ""))] : [],
      ),
      doNow(told, expectation(correction, step), { nameOf, display }),
      ...beware(warnings),
      ...(isTold
        ? [
            section(
              "How it looks, how far it is off",
              figures(
                element(
                  "div",
                  {},
                  ...looks(correction),
                  differencesOf(correction, withNextCard(differences, correction)),
                ),
                // One below the other beside what it looks like, where nothing else stands there.
                ...(isFlop ? [element("div", {}, ...ways())] : [...offTargets(job, correction), ...ways()]),
              ),
              ...(isFlop
                ? [htmlTable(FLOP_CAPTION, flop), drawn(anglePlot(correction, predictedOf(correction)))]
                : []),
              ...(isOut ? [] : proof.map((line) => element("p", { class: "note" }, line))),
            ),
          ]
        : []),
      ...(wayOut ? waysOut(wayOut, step.step, { nameOf, display }) : []),
      notesOf(correctionNotes(correction, named, display)),
      ...(isSprayed ? [section("Safety", element("p", { class: "caution" }, SPRAYING_CAUTION))] : []),
    ],
    { pot: `${massText(Number(inPot.toFixed(1)), display)} now`, ...head },
  );
}

interface Style {
  readonly nameOf: (id: string) => string;
  readonly display: MassDisplay;
}

/** What to do, the pours with a box to tick each, and what to expect of it. */
function doNow({ lead, pours, after }: Instruction, expected: string, { nameOf, display }: Style): Markup {
  const paragraphs = (lines: readonly string[]) => lines.map((line) => element("p", {}, line));
  const below = paragraphs([...after, ...expected.split("\n")].filter((line) => line !== ""));
  if (!pours)
    return section("What to do", ...lead.map((line) => element("p", { class: "lead" }, line)), ...below);
  const table = pours.table ?? recipeTable(pours.grams, nameOf, display);
  return section("Pour", pourTable(lead.join(" "), table), ...below);
}

/** What is the same in every row is said in the caption. */
function differencesOf(correction: Correction, table: Table): Markup {
  const after = shownAfter(correction);
  const same = ["target", "geometry", "light"].flatMap((head) => {
    const column = table.head.indexOf(head);
    const [first] = table.rows;
    return table.rows.every((row) => row[column] === first[column]) ? [{ head, value: first[column] }] : [];
  });
  // A table of one row keeps its head.
  const said = table.rows.length > 1 ? same : same.filter(({ head }) => head !== "target");
  const left = [...WORDS, ...said.map(({ head }) => head), ...(after === null ? THEN : [])];
  const what = `card as read${after === null ? "" : `, ${after} as predicted`}`;
  return htmlTable(
    [`ΔE00 (CIEDE2000): ${what}`, ...said.map(({ value }) => value)].join("; "),
    withoutColumns(table, left),
  );
}

/** Other ways beside the reasons: smaller, since the pours above are what is to be done. */
function notesOf({ otherWays, why }: CorrectionNotes): Markup {
  const noted = (title: string, lines: readonly string[]) =>
    lines.length === 0
      ? []
      : [section(title, element("ul", {}, ...lines.map((line) => element("li", {}, line))))];
  return element(
    "div",
    { class: "halves" },
    ...noted("Other ways", otherWays),
    ...noted("Why these toners", why),
  );
}

/** What helps where adding does not, and is not what to do now: pour some off first, or start anew. */
function waysOut({ pourOff, newPot }: WayOut, step: string, { nameOf, display }: Style): readonly Markup[] {
  const list = (grams: readonly (readonly [id: string, grams: number])[]) =>
    grams.map(([id, amount]) => `${massText(amount, display, id)} ${nameOf(id)}`).join(", ");
  const lines = [
    ...(pourOff && step !== "pour-off"
      ? [
          `Pour off ${massText(pourOff.grams, display)} of the stirred pot (${perCent(pourOff.share)}), then add ${list(pourOff.then.additions.map(({ toner, grams }) => [toner, grams])) || "nothing"}: every target within its tolerance.`,
        ]
      : []),
    ...(newPot && step !== "new-pot"
      ? [
          `Start a new pot, ${newPot.isWithinTolerance ? "every target within its tolerance" : "the nearest found with these toners, out of tolerance still"}: ${list(Object.entries(newPot.recipe).sort(([, a], [, b]) => b - a))}.`,
        ]
      : []),
  ];
  if (lines.length === 0) return [];
  return [
    section("What else can be done", element("ul", {}, ...lines.map((line) => element("li", {}, line)))),
  ];
}

/** How far card and mix are off, at each geometry where a target has a spectrum. */
function offTargets(job: Job, correction: Correction): readonly Markup[] {
  return correctionSpectra(job, correction)
    .filter(({ targets }) => targets.length > 0)
    .map((spectra) => drawn(differencePlot(spectra)));
}

/** Side by side where there is room. */
const figures = (...children: readonly Markup[]): Markup => element("div", { class: "figures" }, ...children);

function drawn({ svg }: NotebookFigure): Markup {
  return element("figure", {}, { markup: svg });
}
