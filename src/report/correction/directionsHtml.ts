import type { TonerDirections } from "../../prediction/tonerDirections.js";
import { element } from "../chart/element.js";
import { htmlPage } from "../page/htmlPage.js";
import { htmlTable } from "../page/htmlTable.js";
import { beware, section } from "../page/sections.js";
import type { SheetHead } from "../page/sheetHead.js";
import { swatches } from "../page/swatches.js";
import { directionPlot } from "../plots/directionPlot.js";
import { massText } from "../words/massText.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";
import { directionGroups, movedByPerCent } from "./directionGroups.js";
import { directionsHeadline, directionsTable } from "./directionsTable.js";

/** How a tinting chart is written. */
export interface DirectionsHtmlOptions {
  readonly names?: TonerNames;
  /** What stands in the head; of the pot its grams when absent, of the rest a blank to write in. */
  readonly head?: SheetHead;
}

/** What moves the colour by less of the longest way than this is a dot on a dot: the table alone has it (our choice). */
const LEAST_SHARE = 0.05;

/** Swatches in one strip. */
const IN_STRIP = 3;

/** Most swatches; the table has all ways. */
const MOST_SWATCHES = 12;

/**
 * A tinting chart as one HTML file that needs nothing else: from the colour of the pot the way of each toner, how strong it
 * is, which go the same way, and how the pot looks with one per cent more of each; light and dark, one sheet of A4.
 */
export function directionsHtml(
  answer: TonerDirections,
  { names = {}, head = {} }: DirectionsHtmlOptions = {},
): string {
  const nameOf = (id: string) => tonerName(names, id);
  const [{ lab: from, illuminant }] = answer.colours;
  const groups = directionGroups(answer);
  const farthest = Math.max(...groups.map(({ leader }) => leader.perCent[0].deltaE00));
  const ends = groups
    .filter(({ leader }) => leader.perCent[0].deltaE00 > LEAST_SHARE * farthest)
    .map(({ leader }) => ({ name: nameOf(leader.toner), lab: movedByPerCent(answer, leader) }));
  const shown = ends.slice(0, MOST_SWATCHES);
  const strips = Array.from({ length: Math.ceil(shown.length / IN_STRIP) }, (_, i) =>
    shown.slice(i * IN_STRIP, (i + 1) * IN_STRIP),
  );
  return htmlPage(
    "Tinting chart",
    [
      element("p", { class: "headline" }, directionsHeadline(answer)),
      element(
        "div",
        { class: "figures" },
        ...(["a*b*", "C*L*"] as const).map((plane) =>
          element("figure", {}, { markup: directionPlot(from, ends, plane).svg }),
        ),
      ),
      section(
        "Who moves where",
        htmlTable(
          "The strongest toner of each way first; lengths are of the first per cent, a second moves less",
          directionsTable(answer, nameOf),
        ),
      ),
      section(
        "How it looks",
        element(
          "div",
          { class: "look" },
          ...strips.map((some) =>
            element(
              "figure",
              {},
              swatches(
                `The pot now, and with one per cent more of ${some.map(({ name }) => name).join(", ")}`,
                [{ name: "now", lab: from }, ...some],
              ),
            ),
          ),
        ),
        element("p", { class: "note" }, `Under ${illuminant}. A screen or print is no proof.`),
      ),
      ...beware(answer.warnings),
    ],
    { pot: massText(Number(answer.potGrams.toFixed(1)), { unit: "g" }), ...head },
  );
}
