import { perCent } from "../../core/perCent.js";
import type { Learning } from "../../planning/learning/learning.js";
import type { TonerSet } from "../../toners/tonerSet.js";
import { element } from "../chart/element.js";
import { htmlPage } from "../page/htmlPage.js";
import { htmlTable } from "../page/htmlTable.js";
import { listed, section } from "../page/sections.js";
import { strengthPlot, strengthSpread } from "../plots/strengthPlot.js";
import { decimals } from "../words/decimals.js";
import { IN_GRAMS, type MassDisplay } from "../words/massText.js";
import { type TonerNames, tonerName, tonerNames } from "../words/tonerName.js";
import { cardRows, doubtLines, learningHeadline, uncalibratedFaults } from "./learningDetails.js";

/** How a report of what was learnt is written. */
export interface LearningHtmlOptions {
  /** What to call the toners, before the names in the toner set. */
  readonly names?: TonerNames;
  /** The unit of the amounts. */
  readonly display?: MassDisplay;
}

/**
 * What cards taught of the cans as one HTML file that needs nothing else: what is not believed and why first, then the
 * strength of every can with its interval, before and after each card, then card by card; light and dark, no scripts.
 */
export function learningHtml(
  learning: Learning,
  { names = {}, display = IN_GRAMS }: LearningHtmlOptions = {},
): string {
  const { cards, toners, warnings } = learning;
  const named = tonerNames(toners, names);
  const doubted = cards.filter(({ verdict }) => verdict === "doubted");
  const uncalibrated = uncalibratedFaults(learning, named, display);
  return htmlPage("Strength of the cans", [
    element("p", { class: "headline" }, learningHeadline(learning)),
    ...(doubted.length === 0
      ? []
      : [
          section(
            "Not believed",
            ...doubted.flatMap((card) => {
              const { doubt, reasons } = doubtLines(card, named, display);
              return [
                element("p", {}, doubt),
                ...(reasons.length === 0
                  ? []
                  : [
                      element("p", {}, "What would explain it, likeliest first:"),
                      element("ul", {}, ...reasons.map((reason) => element("li", {}, reason))),
                    ]),
              ];
            }),
            ...(uncalibrated === "" ? [] : [element("p", { class: "note" }, uncalibrated)]),
          ),
        ]),
    ...listed(
      "Warnings",
      warnings.map(({ message, path }) => `${path}: ${message}`),
    ),
    ...(doubted.length === cards.length
      ? []
      : [
          section(
            "The cans",
            strengthTable(learning, toners, named),
            element("figure", {}, { markup: strengthPlot(learning, named).svg }),
          ),
        ]),
    section(
      "Card by card",
      htmlTable(
        "how probable it is that nothing is wrong with the card; the strength of which toners, against the pot, it made surer by a tenth or more",
        {
          head: ["pot", "card", "verdict", "sound", "taught"],
          rows: cardRows(cards, named).map(([pot, card, verdict, taught], i) => [
            pot,
            card,
            verdict,
            perCent(cards[i].soundProbability),
            taught,
          ]),
          right: [3, 4],
        },
      ),
    ),
  ]);
}

/** Only toners of which a card could tell something: the others are as they were. */
function strengthTable({ strengths, cards }: Learning, { toners }: TonerSet, names: TonerNames) {
  const seen = new Set(cards.flatMap(({ beliefs }) => beliefs.map(({ toner }) => toner)));
  const rows = strengths.flatMap(({ toner, can = "", strengthBefore, strength, sdInPot = 0 }) => {
    if (!seen.has(toner)) return [];
    const { low, high } = strengthSpread(strength, sdInPot);
    return [
      [
        tonerName(names, toner),
        can,
        decimals(strengthBefore, 3),
        decimals(strength, 3),
        `${decimals(low, 2)}–${decimals(high, 2)}`,
      ],
    ];
  });
  const others = toners.length - rows.length;
  const rest = others === 0 ? "" : `; ${others} more were in no pot and are as they were`;
  return htmlTable(`1 is as characterised; only what one is worth against another shows on a card${rest}`, {
    head: ["toner", "can", "before", "now", "90 % between"],
    rows,
    right: [2, 3, 4],
  });
}
