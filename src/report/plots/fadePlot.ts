import { perCent } from "../../core/perCent.js";
import type { HoldBackPlan } from "../../planning/holdBack/holdBackPlan.js";
import { FIGURE_WIDTH } from "../chart/figure.js";
import { intervalPlot } from "../chart/intervalPlot.js";
import type { NotebookFigure } from "../chart/notebookFigure.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";

/** Beyond this the axis would flatten what matters. */
const MOST_LEFT = 200;

/**
 * What is left of each toner of the formula on each panel, in per cent: a dot, and a line over its 90 % interval; one
 * row per toner, in it the panels in their order.
 */
export function fadePlot(
  { panels }: Pick<HoldBackPlan, "panels">,
  names: TonerNames = {},
  width = FIGURE_WIDTH,
): NotebookFigure {
  const toners = panels[0]?.remaining.map(({ toner }) => toner) ?? [];
  return intervalPlot({
    width,
    title: "What is left of each toner",
    description: panels
      .map(
        ({ panel, remaining }) =>
          `${panel}: ${remaining.map(({ toner, fraction }) => `${tonerName(names, toner)} ${perCent(fraction)}`).join(", ")}.`,
      )
      .join(" "),
    axis: "per cent of the formula, 90 % intervals",
    series: panels.map(({ panel }) => panel),
    rows: toners.map((toner, t) => ({
      name: tonerName(names, toner),
      spreads: panels.map(({ remaining }) => {
        const { fraction, low, high } = remaining[t];
        return { low: 100 * low, value: 100 * fraction, high: 100 * high };
      }),
    })),
    shows: [0, 100],
    within: [0, MOST_LEFT],
  });
}
