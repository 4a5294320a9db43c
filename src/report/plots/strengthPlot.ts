import type { CardBelief, Learning } from "../../planning/learning/learning.js";
import { intervalPlot, type Spread } from "../chart/intervalPlot.js";
import type { NotebookFigure } from "../chart/notebookFigure.js";
import { decimals } from "../words/decimals.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";

/** More cards than this in one plot hide one another; the last ones are shown. */
const MOST_CARDS = 5;

/** 90 % of a normal law lie within so many standard deviations of its mean. */
const WITHIN_90 = 1.645;

/** A strength with its 90 % interval, from its sd as a logarithm. */
export const strengthSpread = (strength: number, sd: number): Spread => ({
  low: strength * Math.exp(-WITHIN_90 * sd),
  value: strength,
  high: strength * Math.exp(WITHIN_90 * sd),
});

/**
 * What was believed of the strength of each toner in the pots before and after each believed card: a dot, and a line
 * over its 90 % interval against the pot; one row per toner, in it the cards in their order.
 */
export function strengthPlot(
  { cards, strengths }: Pick<Learning, "cards" | "strengths">,
  names: TonerNames = {},
): NotebookFigure {
  const believed = cards.filter(({ verdict }) => verdict === "believed");
  const shown = believed.slice(-MOST_CARDS);
  const seen = new Set(shown.flatMap(({ beliefs }) => beliefs.map(({ toner }) => toner)));
  const toners = strengths.map(({ toner }) => toner).filter((toner) => seen.has(toner));
  const isOnePot = new Set(cards.map(({ pot }) => pot)).size === 1;
  const first = (toner: string) =>
    shown.flatMap(({ beliefs }) => beliefs).find((belief) => belief.toner === toner);
  const after = ({ beliefs }: { readonly beliefs: readonly CardBelief[] }, toner: string) =>
    beliefs.find((belief) => belief.toner === toner);
  const rows = toners.map((toner) => {
    const before = first(toner);
    return {
      name: tonerName(names, toner),
      spreads: [
        before && strengthSpread(before.strengthBefore, before.sdBefore),
        ...shown.map((card) => {
          const belief = after(card, toner);
          return belief && strengthSpread(belief.strength, belief.sd);
        }),
      ],
    };
  });
  return intervalPlot({
    title: "Strength of the cans before and after each card",
    description: rows
      .map(
        ({ name, spreads }) =>
          `${name}: ${spreads.map((spread) => (spread ? decimals(spread.value, 2) : "–")).join(", ")}.`,
      )
      .join(" "),
    axis: "strength, 1 as characterised, with 90 % intervals against the pot",
    series: ["before", ...shown.map(({ pot, card }) => `after ${isOnePot ? card : `${pot}, ${card}`}`)],
    rows,
    shows: [0.9, 1.1],
    within: [0, 3],
  });
}
