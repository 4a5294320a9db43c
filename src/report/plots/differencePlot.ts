import type { CorrectionSpectra } from "../../correction/correctionSpectra.js";
import { gridEnd, wavelengths } from "../../spectra/grid.js";
import { type Area, across, upwards } from "../chart/area.js";
import { AXIS_ROOM, axes } from "../chart/axes.js";
import { element } from "../chart/element.js";
import { figure, HALF_WIDTH, MARGIN, TITLE_HEIGHT } from "../chart/figure.js";
import { type LegendEntry, legend } from "../chart/legend.js";
import { line } from "../chart/line.js";
import type { NotebookFigure } from "../chart/notebookFigure.js";
import { extent, linearScale, niceDomain } from "../chart/scale.js";
import { seriesStyle } from "../chart/seriesStyle.js";
import { through, trace } from "../chart/trace.js";
import { decimals } from "../words/decimals.js";
import { checkLength } from "./checkLength.js";
import { wavelengthScale } from "./wavelengthScale.js";

const HEIGHT = 96;

/** The axis shows at least this much reflectance to both sides, so that noise does not look like a mismatch. */
const LEAST_DIFFERENCE = 0.02;

/** More targets than this hide one another: the furthest off are shown. */
const MOST_TARGETS = 3;

const CARD_DASH = "5 3";

/**
 * How far card (dashed) and mix after the pours (whole line) are from each target, in reflectance factor at one geometry:
 * a curve on the line of 0 matches at every band. Throws `wrong-length`.
 */
export function differencePlot({ geometry, grid, card, after, targets }: CorrectionSpectra): NotebookFigure {
  checkLength(card, grid.count, "card");
  checkLength(after, grid.count, "after");
  const off = targets.map(({ name, reflectance }, t) => {
    checkLength(reflectance, grid.count, `targets[${t}].reflectance`);
    const less = (values: readonly number[]) => values.map((value, i) => value - reflectance[i]);
    return { name, card: less(card), after: less(after) };
  });
  const shown = [...off].sort((a, b) => farthest(b.after) - farthest(a.after)).slice(0, MOST_TARGETS);
  // Where nothing is poured the mix is the card.
  const isMoved = after.some((value, i) => value !== card[i]);
  const curves = shown.flatMap(({ name, ...curve }, t) => {
    const { className, shape } = seriesStyle(t);
    const of = shown.length > 1 ? `${name}: ` : "";
    return [
      { text: `${of}card`, values: curve.card, style: { className, shape, dash: CARD_DASH } },
      ...(isMoved ? [{ text: `${of}after`, values: curve.after, style: { className, shape } }] : []),
    ];
  });
  const keys = legend(
    curves.map(({ text, style }): LegendEntry => ({ text, style, mark: "line" })),
    { left: MARGIN, top: TITLE_HEIGHT, width: HALF_WIDTH - 2 * MARGIN },
  );
  const area: Area = {
    left: AXIS_ROOM.left,
    top: TITLE_HEIGHT + keys.height + AXIS_ROOM.top,
    width: HALF_WIDTH - AXIS_ROOM.left - AXIS_ROOM.right,
    height: HEIGHT,
  };
  const nm = wavelengths(grid);
  const x = wavelengthScale([grid], across(area), 4);
  const most = Math.max(LEAST_DIFFERENCE, ...curves.map(({ values }) => farthest(values)));
  const y = linearScale(niceDomain([-most, most], 4), upwards(area), 4);
  const left = off.length - shown.length;
  const others = left > 0 ? ` ${left} nearer ${left === 1 ? "one is" : "ones are"} not shown.` : "";
  return figure(
    {
      width: HALF_WIDTH,
      title: `Off the target: ${geometry}`,
      description: `Reflectance factor less the target's over ${grid.start} to ${gridEnd(grid)} nm. ${off.map(offText).join(" ")}${others}`,
    },
    area.top + area.height + AXIS_ROOM.bottom,
    keys.markup,
    axes(area, x, y, { x: "wavelength, nm", y: "reflectance factor less the target's" }),
    element("path", {
      class: "axis",
      d: through([
        [area.left, y.at(0)],
        [area.left + area.width, y.at(0)],
      ]),
    }),
    ...curves.map(({ values, style }) => line(trace(x, y, nm, values), style)),
  );
}

interface Off {
  readonly name: string;
  readonly card: readonly number[];
  readonly after: readonly number[];
}

/** The largest finite value, whatever its sign. */
const farthest = (values: readonly number[]): number => Math.max(...extent(values.map(Math.abs)));

function offText({ name, card, after }: Off): string {
  return `${name}: at most ${decimals(farthest(card), 3)} off on the card, ${decimals(farthest(after), 3)} after the pours.`;
}
