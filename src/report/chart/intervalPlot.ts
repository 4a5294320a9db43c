import { type Area, across } from "./area.js";
import { AXIS_ROOM, axes } from "./axes.js";
import { dots } from "./dots.js";
import { element } from "./element.js";
import { FIGURE_WIDTH, type FigureText, figure, MARGIN, TITLE_HEIGHT } from "./figure.js";
import { type LegendEntry, legend } from "./legend.js";
import { line } from "./line.js";
import type { NotebookFigure } from "./notebookFigure.js";
import { clamp, extent, type Interval, linearScale, niceDomain } from "./scale.js";
import { seriesStyle } from "./seriesStyle.js";
import { shortened } from "./textWidth.js";

/** A value and the interval around it. */
export interface Spread {
  readonly low: number;
  readonly value: number;
  readonly high: number;
}

export interface IntervalPlot extends FigureText {
  /** What stands below the axis. */
  readonly axis: string;
  readonly series: readonly string[];
  /** A row per thing, in it a spread for each series, where there is one. */
  readonly rows: readonly { readonly name: string; readonly spreads: readonly (Spread | undefined)[] }[];
  /** What the axis shows at least, and at most: a longer interval ends at its edge. */
  readonly shows: Interval;
  readonly within: Interval;
}

const NAME_ROOM = 130;
const STEP = 8;
const APART = 4;

/** Rows of dots with lines over their intervals, a dot per series in each row. */
export function intervalPlot({ axis, series, rows, shows, within, ...text }: IntervalPlot): NotebookFigure {
  const { width = FIGURE_WIDTH } = text;
  const keys = legend(
    series.map((name, s): LegendEntry => ({ text: name, style: seriesStyle(s), mark: "dots" })),
    { left: MARGIN, top: TITLE_HEIGHT, width: width - 2 * MARGIN },
  );
  const row = series.length * STEP + APART;
  const area: Area = {
    left: MARGIN + NAME_ROOM,
    top: TITLE_HEIGHT + keys.height + APART,
    width: width - 2 * MARGIN - NAME_ROOM,
    height: Math.max(1, rows.length) * row,
  };
  const ends = rows.flatMap(({ spreads }) =>
    spreads.flatMap((spread) => (spread ? [clamp(spread.low, within), clamp(spread.high, within)] : [])),
  );
  const x = linearScale(niceDomain(extent([...shows, ...ends]), 6), across(area), 6);
  const y = linearScale([0, 1], [area.top, area.top + area.height], 1);
  return figure(
    text,
    area.top + area.height + AXIS_ROOM.bottom,
    keys.markup,
    axes(area, x, { ...y, ticks: [] }, { x: axis, y: "" }),
    ...x.ticks.map(({ value }) =>
      element("path", { class: "grid", d: `M${x.at(value).toFixed(2)} ${area.top}v${area.height}` }),
    ),
    ...rows.map(({ name }, r) =>
      element("text", { x: MARGIN, y: area.top + (r + 0.5) * row + 4 }, shortened(name, NAME_ROOM - 8)),
    ),
    ...rows.flatMap(({ spreads }, r) =>
      spreads.flatMap((spread, s) => {
        if (spread === undefined) return [];
        const at = area.top + r * row + APART / 2 + (s + 0.5) * STEP;
        const style = seriesStyle(s);
        return [
          line(
            [spread.low, spread.high].map((value) => [x.at(value), at] as const),
            { className: style.className },
          ),
          dots([[x.at(spread.value), at]], style, 3.2),
        ];
      }),
    ),
  );
}
