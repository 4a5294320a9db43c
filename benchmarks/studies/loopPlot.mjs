import { importSources } from "./importSources.mjs";

const [area, axes, element, figure, legend, line, log, scale, style, trace] = await importSources(
  "src/report/chart/area.ts",
  "src/report/chart/axes.ts",
  "src/report/chart/element.ts",
  "src/report/chart/figure.ts",
  "src/report/chart/legend.ts",
  "src/report/chart/line.ts",
  "src/report/chart/logScale.ts",
  "src/report/chart/scale.ts",
  "src/report/chart/seriesStyle.ts",
  "src/report/chart/trace.ts",
);

const HEIGHT = 280;
const { AXIS_ROOM } = axes;
const { FIGURE_WIDTH, MARGIN, TITLE_HEIGHT } = figure;

/**
 * Shares of jobs by the colour difference that is left: one panel per entry of `panels` ({ title, series: [{ name,
 * values }] }), the same names in all; a dashed line at `limit`.
 */
export function sharePlot(text, panels, limit) {
  const names = panels[0].series.map(({ name }) => name);
  const keys = legend.legend(
    names.map((name, i) => ({ text: name, style: style.seriesStyle(i), mark: "line" })),
    { left: MARGIN, top: TITLE_HEIGHT, width: FIGURE_WIDTH - 2 * MARGIN },
  );
  const top = TITLE_HEIGHT + keys.height + AXIS_ROOM.top;
  const width = FIGURE_WIDTH / panels.length - AXIS_ROOM.left - AXIS_ROOM.right;
  return figure.figure(
    text,
    top + HEIGHT + AXIS_ROOM.bottom,
    keys.markup,
    ...panels.map((panel, i) =>
      onePanel(panel, limit, {
        left: AXIS_ROOM.left + (i * FIGURE_WIDTH) / panels.length,
        top,
        width,
        height: HEIGHT,
      }),
    ),
  ).svg;
}

function onePanel({ title, series }, limit, place) {
  const x = log.logScale([0.05, 5], area.across(place));
  const y = scale.linearScale([0, 100], area.upwards(place), 5);
  const lines = series.map(({ values }, i) => {
    const sorted = [...values].sort((a, b) => a - b);
    const share = sorted.map((_, rank) => (100 * (rank + 1)) / sorted.length);
    return line.line(trace.trace(x, y, [sorted[0], ...sorted, 5], [0, ...share, 100]), style.seriesStyle(i));
  });
  return element.element(
    "g",
    {},
    axes.axes(place, x, y, { x: "true ΔE00 from the panel", y: title }),
    element.element("path", {
      class: "unknown",
      d: `M${x.at(limit)} ${place.top}v${place.height}`,
      stroke: "currentColor",
      "stroke-dasharray": "4 3",
    }),
    ...lines,
  );
}
