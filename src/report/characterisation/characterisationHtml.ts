import type { Characterisation } from "../../characterisation/characterisation.js";
import type { Sample } from "../../characterisation/sample.js";
import { element, type Markup } from "../chart/element.js";
import type { NotebookFigure } from "../chart/notebookFigure.js";
import { htmlPage } from "../page/htmlPage.js";
import { htmlTable } from "../page/htmlTable.js";
import { beware, section } from "../page/sections.js";
import { ladderPlot } from "../plots/ladderPlot.js";
import { reflectancePlot } from "../plots/reflectancePlot.js";
import { tintLadders } from "../plots/tintLadders.js";
import { tonerPlot } from "../plots/tonerPlot.js";
import { type TonerNames, tonerName, tonerNames } from "../words/tonerName.js";
import { characterisationHeadline, fitSentence } from "./characterisationHeadline.js";
import { characterisationTables } from "./characterisationTables.js";
import { fitSummary, type JudgedSample } from "./fitSummary.js";

/** What a report may show beside the characterisation itself. */
export interface CharacterisationHtmlOptions {
  /** What to call the toners, before the names in the toner set. */
  readonly names?: TonerNames;
  /** The samples as given to `characterise`; with them the tint ladders are shown too. */
  readonly samples?: readonly Sample[];
  /** How many of the samples get a plot, the worst first; outliers always do. */
  readonly plottedSamples?: number;
}

const CHARACTERISATION_HTML_DEFAULTS = Object.freeze({ names: {}, samples: [], plottedSamples: 3 });

/**
 * A characterisation as one HTML file that needs nothing else: warnings first, tables, figures of every toner and of
 * the worst samples; light and dark, A4 in print, no scripts. Throws what `tonerPlot` and `reflectancePlot` throw.
 */
export function characterisationHtml(
  characterisation: Characterisation,
  options: CharacterisationHtmlOptions = {},
): string {
  const { names, samples, plottedSamples } = { ...CHARACTERISATION_HTML_DEFAULTS, ...options };
  const { toners, warnings } = characterisation;
  const named = tonerNames(toners, names);
  const tables = characterisationTables(characterisation, named);
  const summary = fitSummary(characterisation.samples);
  const plotted = summary.samples.filter(
    ({ sample }, i) => i < plottedSamples || sample.outlier !== undefined,
  );
  return htmlPage("Toners, characterised", [
    element("p", {}, characterisationHeadline(characterisation)),
    ...beware(warnings, "Warnings"),
    section(
      "How well the toners explain the samples",
      element(
        "p",
        {},
        "Colour difference (CIEDE2000) of each sample, by the worst of its readings, from what the toners say of it.",
      ),
      htmlTable("Colour differences", tables.differences),
      element("p", {}, fitSentence(characterisation)),
    ),
    section(
      "What is known of each toner",
      element("p", {}, "Standard deviations are medians over the bands, as a share of K and of S."),
      htmlTable("Toners", tables.toners),
      ...(tables.shared.rows.length > 0 ? [htmlTable("Found together with K and S", tables.shared)] : []),
    ),
    ...(tables.next.rows.length > 0
      ? [section("What to measure next", htmlTable("Drawdowns, the most telling first", tables.next))]
      : []),
    section("The toners", ...tonerFigures(characterisation, named, samples)),
    section(
      "The samples",
      htmlTable("Samples, the worst first", tables.samples),
      ...plotted.map(({ sample }: JudgedSample) => drawn(reflectancePlot(sample, toners.grid))),
    ),
  ]);
}

function tonerFigures(
  { toners, quality }: Characterisation,
  names: TonerNames,
  samples: readonly Sample[],
): readonly Markup[] {
  const ladders = tintLadders(samples);
  const set = {
    ...toners,
    toners: toners.toners.map((toner) => ({ ...toner, name: tonerName(names, toner.id) })),
  };
  return set.toners.flatMap(({ id, name }) => [
    element("h3", {}, name),
    ...quality.filter((entry) => entry.id === id).map((entry) => drawn(tonerPlot(set, entry))),
    ...ladders.filter(({ toner }) => toner === id).map((ladder) => drawn(ladderPlot(ladder, names))),
  ]);
}

function drawn({ svg }: NotebookFigure): Markup {
  return element("figure", {}, { markup: svg });
}
