import type { CorrectionSpectra } from "../../correction/correctionSpectra.js";
import { gridEnd, wavelengths } from "../../spectra/grid.js";
import { type Area, across, upwards } from "../chart/area.js";
import { AXIS_ROOM, axes } from "../chart/axes.js";
import { FIGURE_WIDTH, figure, MARGIN, TITLE_HEIGHT } from "../chart/figure.js";
import { type LegendEntry, legend } from "../chart/legend.js";
import { line } from "../chart/line.js";
import type { NotebookFigure } from "../chart/notebookFigure.js";
import { extent, linearScale, niceDomain } from "../chart/scale.js";
import { seriesStyle } from "../chart/seriesStyle.js";
import { trace } from "../chart/trace.js";
import { decimals } from "../words/decimals.js";
import { checkLength } from "./checkLength.js";
import { wavelengthScale } from "./wavelengthScale.js";

const HEIGHT = 76;

/** The axis shows at least this much reflectance, so that noise does not look like a mismatch. */
const LEAST_REFLECTANCE = 0.1;

/**
 * Reflectance factor at one geometry of the card, of the targets, and of the mix as predicted after the pours.
 * Throws `wrong-length`.
 */
export function matchPlot({ geometry, grid, card, after, targets }: CorrectionSpectra): NotebookFigure {
  checkLength(card, grid.count, "card");
  checkLength(after, grid.count, "after");
  targets.forEach(({ reflectance }, t) => {
    checkLength(reflectance, grid.count, `targets[${t}].reflectance`);
  });
  const curves = [
    { text: "after the pours, predicted", values: after },
    { text: "card, as read", values: card },
    ...targets.map(({ name, reflectance }) => ({ text: `target: ${name}`, values: reflectance })),
  ].map((curve, i) => ({ ...curve, style: seriesStyle(i) }));
  const keys = legend(
    curves.map(({ text, style }): LegendEntry => ({ text, style, mark: "line" })),
    { left: MARGIN, top: TITLE_HEIGHT, width: FIGURE_WIDTH - 2 * MARGIN },
  );
  const area: Area = {
    left: AXIS_ROOM.left,
    top: TITLE_HEIGHT + keys.height + AXIS_ROOM.top,
    width: FIGURE_WIDTH - AXIS_ROOM.left - AXIS_ROOM.right,
    height: HEIGHT,
  };
  const nm = wavelengths(grid);
  const x = wavelengthScale([grid], across(area), 7);
  const highest = extent([0, LEAST_REFLECTANCE, ...curves.flatMap(({ values }) => values)]);
  const y = linearScale(niceDomain(highest, 5), upwards(area), 5);
  return figure(
    {
      title: `Reflectance of card, targets and mix: ${geometry}`,
      description: `Reflectance factor over ${grid.start} to ${gridEnd(grid)} nm. ${targets.map(({ name, reflectance }) => offText(name, { card, after, reflectance })).join(" ")}`,
    },
    area.top + area.height + AXIS_ROOM.bottom,
    keys.markup,
    axes(area, x, y, { x: "wavelength, nm", y: "reflectance factor" }),
    ...curves.map(({ values, style }) => line(trace(x, y, nm, values), style)),
  );
}

function offText(
  name: string,
  curves: Readonly<Record<"card" | "after" | "reflectance", readonly number[]>>,
): string {
  const off = (curve: readonly number[]) =>
    decimals(Math.max(...extent(curve.map((value, i) => Math.abs(value - curves.reflectance[i])))), 3);
  return `${name}: largest difference from the target ${off(curves.card)} on the card, ${off(curves.after)} after the pours.`;
}
