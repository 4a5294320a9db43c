import type { Certificate } from "../../certificate/records/certificate.js";
import { srgbHex } from "../../colorimetry/colorjs.js";
import { SPRAYING_CAUTION } from "../../core/caution.js";
import { perCent } from "../../core/perCent.js";
import type { Correction, TargetPrediction, WayOut } from "../../correction/correction.js";
import { correctionSpectra } from "../../correction/correctionSpectra.js";
import type { NextStep } from "../../planning/nextStep/nextStep.js";
import type { Job } from "../../problem/job.js";
import { element, type Markup } from "../chart/element.js";
import type { NotebookFigure } from "../chart/notebookFigure.js";
import { htmlPage } from "../page/htmlPage.js";
import { htmlTable } from "../page/htmlTable.js";
import { listed, section } from "../page/sections.js";
import { swatches } from "../page/swatches.js";
import { anglePlot } from "../plots/anglePlot.js";
import { labPlot } from "../plots/labPlot.js";
import { matchPlot } from "../plots/matchPlot.js";
import { decimals } from "../words/decimals.js";
import { IN_GRAMS, type MassDisplay, massText } from "../words/massText.js";
import type { Table } from "../words/table.js";
import { type TonerNames, tonerName, tonerNames } from "../words/tonerName.js";
import { certificateText } from "./certificateText.js";
import { correctionHeadline } from "./correctionHeadline.js";
import { type CorrectionNotes, correctionNotes } from "./correctionNotes.js";
import { correctionTables } from "./correctionTables.js";
import { flopText, predictedOf } from "./flopText.js";
import { forecastSentence, withFirstPours, withNextCard } from "./forecastSentence.js";
import { nextStepText } from "./nextStepText.js";

/** What a report may show beside the correction itself. */
export interface CorrectionHtmlOptions {
  /** What to call the toners, before the names in the toner set. */
  readonly names?: TonerNames;
  /** What `certify` says of the correction. */
  readonly certificate?: Certificate;
  /** What `adviseNextStep` says of the correction. */
  readonly nextStep?: NextStep;
  /** The unit of the amounts. */
  readonly display?: MassDisplay;
}

/** Kept small, so that a usual job fits one sheet. */
const LAB_HEIGHT = 124;

const FLOP_CAPTION = "Flop index (Alman 1987), face and flop";

/** Most swatches side by side; the table has all colours. */
const MOST_SWATCHES = 6;

/**
 * A correction as one HTML file that needs nothing else: warnings first, pours at the scale, swatches, differences, the
 * way in Lab, curves, the safety caution last; light and dark, one sheet of A4 for a job of usual size, no scripts.
 * `job` is what was corrected. Throws what `correct` throws.
 */
export function correctionHtml(
  job: Job,
  correction: Correction,
  { names = {}, certificate, nextStep, display = IN_GRAMS }: CorrectionHtmlOptions = {},
): string {
  const named = tonerNames(job.toners, names);
  const { additions, warnings, wayOut } = correction;
  const nameOf = (id: string) => tonerName(named, id);
  const proof = certificate ? certificateText(certificate, nameOf).split("\n").filter(Boolean) : [];
  const { pours, differences, flop, obstacles, uncalibrated } = correctionTables(correction, named, display);
  // There are no predictions where no additions were computed.
  const isTold = correction.status !== "undetermined";
  const inOrder = withFirstPours(pours, correction, display);
  return htmlPage("Correction of a pot", [
    element("p", { class: "headline" }, correctionHeadline(correction, nextStep)),
    ...[flopText(correction)].filter(Boolean).map((line) => element("p", {}, line)),
    ...(nextStep ? [element("p", {}, nextStepText(nextStep, named, display).split("\n")[0])] : []),
    ...listed("What is in the way", [...obstacles, ...proof.slice(1).map((line) => line.replace(/^- /, ""))]),
    ...listed(
      "Warnings",
      warnings.map(({ message, path }) => (path ? `${path}: ${message}` : message)),
    ),
    element(
      "div",
      additions.length > 0 ? { class: "columns" } : {},
      ...(additions.length > 0
        ? [
            section(
              "Pour",
              table("Zero the scale with the cup on it, then pour in this order", {
                ...inOrder,
                head: ["no.", ...inOrder.head.slice(1)],
              }),
              ...afterPours(correction, display).map((line) => element("p", {}, line)),
              ...(uncalibrated === "" ? [] : [element("p", { class: "note" }, uncalibrated)]),
            ),
          ]
        : []),
      ...(isTold ? [section("How it looks", ...lookOf(correction))] : []),
    ),
    ...(isTold
      ? [
          section(
            "How far from the targets",
            differencesOf(correction, withNextCard(differences, correction)),
            ...proof.slice(0, 1).map((line) => element("p", {}, line)),
            ...(flop.rows.length > 0 ? [table(FLOP_CAPTION, flop)] : []),
            drawn(labPlot(correction, named, { height: LAB_HEIGHT, display })),
            ...(flop.rows.length > 0
              ? [drawn(anglePlot(correction, predictedOf(correction.status)))]
              : correctionSpectra(job, correction).map((spectra) => drawn(matchPlot(spectra)))),
          ),
        ]
      : []),
    ...(wayOut ? waysOut(wayOut, nameOf, display) : []),
    notesOf(correctionNotes(correction, named, display)),
    ...(isTold ? [section("Safety", element("p", { class: "caution" }, SPRAYING_CAUTION))] : []),
  ]);
}

/** What is in the cup after the pours, what it hides, and what the next card may be, a line each. */
function afterPours(
  { potGramsAfter, hidingThicknessRatio, forecast }: Correction,
  display: MassDisplay,
): readonly string[] {
  const hiding = Number.isFinite(hidingThicknessRatio)
    ? ` To hide it needs ${decimals(hidingThicknessRatio, 2)} times the film of the card.`
    : "";
  const cup = `In the cup afterwards: ${massText(potGramsAfter, display)}.${hiding}`;
  return [cup, forecastSentence(forecast)].filter((line) => line !== "");
}

/** Where there is one geometry, its column is said in the caption. */
function differencesOf({ predictions, status }: Correction, { head, rows, right }: Table): Markup {
  const after = predictedOf(status);
  const caption = `Colour difference (CIEDE2000): card as read${after === null ? "" : `, ${after} as predicted`}`;
  const [{ geometry }] = predictions;
  const column = head.indexOf("geometry");
  if (predictions.some((prediction) => prediction.geometry !== geometry)) {
    return htmlTable(caption, head, rows, right);
  }
  const rest = (cells: readonly string[]) => cells.filter((_, i) => i !== column);
  const moved = right.map((i) => (i > column ? i - 1 : i));
  return htmlTable(`${caption}; ${geometry}`, rest(head), rows.map(rest), moved);
}

/** A face brighter than white is white on a screen, whatever its colour. */
const isShown = ({ labBefore, labTarget }: TargetPrediction) => Math.min(labBefore[0], labTarget[0]) < 100;

/** Swatches under the first light, for every target and geometry: before, after, and the target. */
function lookOf({ predictions, status }: Correction): readonly Markup[] {
  const after = predictedOf(status);
  const [{ illuminant }] = predictions;
  const seen = predictions.filter((prediction) => prediction.illuminant === illuminant);
  const isOneGeometry = seen.every(({ geometry }) => geometry === seen[0].geometry);
  const told = seen.filter(isShown).slice(0, MOST_SWATCHES);
  const shown = told.map(({ target, geometry, labBefore, labAfter, labTarget }) => {
    const title = isOneGeometry ? target : `${target}, ${geometry}`;
    return element(
      "figure",
      {},
      element("figcaption", {}, title),
      swatches(`${title}: card, ${after === null ? "" : `${after}, `}target`, [
        { name: "card", lab: labBefore },
        ...(after === null ? [] : [{ name: after === "sprayed so" ? after : "after", lab: labAfter }]),
        { name: "target", lab: labTarget },
      ]),
    );
  });
  const isMapped = told.some(({ labBefore, labAfter, labTarget }) =>
    [labBefore, labAfter, labTarget].some((lab) => srgbHex(lab).mapped),
  );
  const left = seen.length - shown.length;
  const more = left > 0 ? ` ${left} more are in the table.` : "";
  return [
    element("div", { class: "looks" }, ...shown),
    element(
      "p",
      { class: "note" },
      `Under ${illuminant}, its white as the screen's.${more} A screen or print is no proof.${isMapped ? " *: no screen shows it." : ""}`,
    ),
  ];
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

/** What helps where adding does not: pour some off first, or start anew. */
function waysOut(
  { pourOff, newPot }: WayOut,
  nameOf: (id: string) => string,
  display: MassDisplay,
): readonly Markup[] {
  const list = (grams: readonly (readonly [id: string, grams: number])[]) =>
    grams.map(([id, amount]) => `${massText(amount, display, id)} ${nameOf(id)}`).join(", ");
  const lines = [
    ...(pourOff
      ? [
          `Pour off ${massText(pourOff.grams, display)} of the stirred pot (${perCent(pourOff.share)}), then add ${list(pourOff.then.additions.map(({ toner, grams }) => [toner, grams])) || "nothing"}: every target within its tolerance.`,
        ]
      : []),
    ...(newPot
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

function table(caption: string, { head, rows, right }: Table): Markup {
  return htmlTable(caption, head, rows, right);
}

function drawn({ svg }: NotebookFigure): Markup {
  return element("figure", {}, { markup: svg });
}
