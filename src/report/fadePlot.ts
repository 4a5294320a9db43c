import type { HoldBackPlan } from "../planning/holdBack/holdBackPlan.js";
import { type Area, across } from "./chart/area.js";
import { AXIS_ROOM, axes } from "./chart/axes.js";
import { dots } from "./chart/dots.js";
import { element } from "./chart/element.js";
import { FIGURE_WIDTH, figure, MARGIN, TITLE_HEIGHT } from "./chart/figure.js";
import { type LegendEntry, legend } from "./chart/legend.js";
import { line } from "./chart/line.js";
import type { NotebookFigure } from "./chart/notebookFigure.js";
import { extent, linearScale, niceDomain } from "./chart/scale.js";
import { seriesStyle } from "./chart/seriesStyle.js";
import { shortened } from "./chart/textWidth.js";
import { decimals } from "./decimals.js";
import { type TonerNames, tonerName } from "./tonerName.js";

const NAME_ROOM = 130;
const STEP = 8;
const APART = 4;

/** Beyond this the axis would flatten what matters; a longer interval ends at its edge. */
const MOST_LEFT = 200;

/**
 * What is left of each toner of the formula on each panel, in per cent: a dot, and a line over its 90 % interval; one
 * row per toner, in it the panels in their order.
 */
export function fadePlot({ panels }: Pick<HoldBackPlan, "panels">, names: TonerNames = {}): NotebookFigure {
  const toners = panels[0]?.remaining.map(({ toner }) => toner) ?? [];
  const keys = legend(
    panels.map(({ panel }, p): LegendEntry => ({ text: panel, style: seriesStyle(p), mark: "dots" })),
    { left: MARGIN, top: TITLE_HEIGHT, width: FIGURE_WIDTH - 2 * MARGIN },
  );
  const row = panels.length * STEP + APART;
  const area: Area = {
    left: MARGIN + NAME_ROOM,
    top: TITLE_HEIGHT + keys.height + APART,
    width: FIGURE_WIDTH - 2 * MARGIN - NAME_ROOM,
    height: Math.max(1, toners.length) * row,
  };
  const left = panels.flatMap(({ remaining }) =>
    remaining.flatMap(({ low, high }) => [100 * low, 100 * high].map((value) => Math.min(MOST_LEFT, value))),
  );
  const x = linearScale(niceDomain(extent([0, 100, ...left]), 6), across(area), 6);
  const y = linearScale([0, 1], [area.top, area.top + area.height], 1);
  const placeOf = (t: number, p: number) => area.top + t * row + APART / 2 + (p + 0.5) * STEP;
  return figure(
    {
      title: "What is left of each toner",
      description: panels
        .map(
          ({ panel, remaining }) =>
            `${panel}: ${remaining.map(({ toner, fraction }) => `${tonerName(names, toner)} ${decimals(100 * fraction, 0)} %`).join(", ")}.`,
        )
        .join(" "),
    },
    area.top + area.height + AXIS_ROOM.bottom,
    keys.markup,
    axes(
      area,
      x,
      { ...y, ticks: [] },
      { x: "per cent of what the formula says, with 90 % intervals", y: "" },
    ),
    ...x.ticks.map(({ value }) =>
      element("path", { class: "grid", d: `M${x.at(value).toFixed(2)} ${area.top}v${area.height}` }),
    ),
    ...toners.map((toner, t) =>
      element(
        "text",
        { x: MARGIN, y: area.top + (t + 0.5) * row + 4 },
        shortened(tonerName(names, toner), NAME_ROOM - 8),
      ),
    ),
    ...panels.flatMap(({ remaining }, p) =>
      remaining.flatMap(({ fraction, low, high }, t) => [
        line(
          [low, high].map((value) => [x.at(100 * value), placeOf(t, p)] as const),
          {
            className: seriesStyle(p).className,
          },
        ),
        dots([[x.at(100 * fraction), placeOf(t, p)]], seriesStyle(p), 3.2),
      ]),
    ),
  );
}
