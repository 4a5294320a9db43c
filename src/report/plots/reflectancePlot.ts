import type { ReadingQuality, SampleQuality } from "../../characterisation/characterisation.js";
import { type Grid, gridEnd, wavelengths } from "../../spectra/grid.js";
import { type Area, across, upwards } from "../chart/area.js";
import { AXIS_ROOM, axes } from "../chart/axes.js";
import { dots } from "../chart/dots.js";
import { element } from "../chart/element.js";
import { FIGURE_WIDTH, figure, MARGIN, TITLE_HEIGHT } from "../chart/figure.js";
import { legend } from "../chart/legend.js";
import { line } from "../chart/line.js";
import type { NotebookFigure } from "../chart/notebookFigure.js";
import { extent, linearScale, niceDomain } from "../chart/scale.js";
import { seriesStyle } from "../chart/seriesStyle.js";
import { through, trace } from "../chart/trace.js";
import { decimals } from "../words/decimals.js";
import { checkLength } from "./checkLength.js";
import { wavelengthScale } from "./wavelengthScale.js";

const SPECTRUM_HEIGHT = 240;
const RESIDUAL_HEIGHT = 84;

/** The axes show at least this much reflectance, so that noise does not look like error. */
const LEAST_REFLECTANCE = 0.1;
const LEAST_RESIDUAL = 0.005;

/**
 * Reflectance factor of one sample as measured (dots) and as predicted (lines), and in a strip below what was
 * measured less what was predicted. `grid` is that of the characterised toners. Throws `wrong-length`.
 */
export function reflectancePlot({ name, readings }: SampleQuality, grid: Grid): NotebookFigure {
  readings.forEach(({ measured, predicted }, r) => {
    checkLength(measured, grid.count, `readings[${r}].measured`);
    checkLength(predicted, grid.count, `readings[${r}].predicted`);
  });
  const nm = wavelengths(grid);
  const residuals = readings.map(({ measured, predicted }) =>
    measured.map((value, i) => value - predicted[i]),
  );
  const keys = legend(
    readings.map((reading, r) => ({ text: readingText(reading), style: seriesStyle(r) })),
    { left: MARGIN, top: TITLE_HEIGHT, width: FIGURE_WIDTH - 2 * MARGIN },
  );
  const upper: Area = {
    left: AXIS_ROOM.left,
    top: TITLE_HEIGHT + keys.height + AXIS_ROOM.top + 4,
    width: FIGURE_WIDTH - AXIS_ROOM.left - AXIS_ROOM.right,
    height: SPECTRUM_HEIGHT,
  };
  const lower: Area = {
    ...upper,
    top: upper.top + upper.height + AXIS_ROOM.top + 16,
    height: RESIDUAL_HEIGHT,
  };
  const x = wavelengthScale([grid], across(upper), 7);
  const highest = extent([0, LEAST_REFLECTANCE, ...readings.flatMap((r) => [...r.measured, ...r.predicted])]);
  const y = linearScale(niceDomain(highest, 5), upwards(upper), 5);
  const largest = Math.max(LEAST_RESIDUAL, ...extent(residuals.flat().map(Math.abs)));
  const around = linearScale(niceDomain([-largest, largest], 4), upwards(lower), 4);
  return figure(
    {
      title: `${name}: reflectance measured and predicted`,
      description: `Reflectance factor over ${grid.start} to ${gridEnd(grid)} nm, dots measured, lines predicted; below, measured less predicted. ${readings.map(readingText).join("; ")}. Largest difference ${decimals(largestOf(residuals.flat()), 4)}.`,
    },
    lower.top + lower.height + AXIS_ROOM.bottom,
    keys.markup,
    axes(upper, x, y, { y: "reflectance factor: dots measured, lines predicted" }),
    ...readings.map(({ predicted }, r) => line(trace(x, y, nm, predicted), seriesStyle(r))),
    ...readings.map(({ measured }, r) => dots(trace(x, y, nm, measured), seriesStyle(r))),
    axes(lower, x, around, { x: "wavelength, nm", y: "measured less predicted" }),
    element("path", {
      class: "axis",
      d: through([
        [upper.left, around.at(0)],
        [upper.left + upper.width, around.at(0)],
      ]),
    }),
    ...residuals.map((residual, r) => line(trace(x, around, nm, residual), seriesStyle(r))),
  );
}

function readingText({ geometry, backing, deltaE00, deltaE00LeftOut }: ReadingQuality): string {
  const where = backing === "opaque" ? "opaque" : `over ${backing}`;
  const leftOut = deltaE00LeftOut === undefined ? "" : `, left out ${decimals(deltaE00LeftOut, 2)}`;
  return `${where}, ${geometry}: ΔE00 ${decimals(deltaE00, 2)}${leftOut}`;
}

/** The finite value furthest from 0; NaN where there is none. */
function largestOf(values: readonly number[]): number {
  const finite = values.filter(Number.isFinite).map(Math.abs);
  return finite.length > 0 ? Math.max(...finite) : Number.NaN;
}
