import type { SampleReading } from "../../characterisation/sample.js";
import { InputError } from "../../core/InputError.js";
import { wavelengths } from "../../spectra/grid.js";
import type { Geometry } from "../../surface/geometry.js";
import { type Area, across, type Point, upwards } from "../chart/area.js";
import { AXIS_ROOM, axes } from "../chart/axes.js";
import { element, type Markup } from "../chart/element.js";
import { FIGURE_WIDTH, figure, TITLE_HEIGHT } from "../chart/figure.js";
import { line } from "../chart/line.js";
import type { NotebookFigure } from "../chart/notebookFigure.js";
import { extent, linearScale, niceDomain } from "../chart/scale.js";
import { rampClass } from "../chart/seriesStyle.js";
import { spreadOut } from "../chart/spreadOut.js";
import { shortened, textWidth } from "../chart/textWidth.js";
import { finiteRuns, through, trace } from "../chart/trace.js";
import { decimals } from "../words/decimals.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";
import { checkLength } from "./checkLength.js";
import { shareOf, type TintLadder } from "./tintLadders.js";
import { wavelengthScale } from "./wavelengthScale.js";

const HEIGHT = 320;
const LINE = 15;

/** From the end of a line to its label. */
const LEADER = 26;
const LEAST_REFLECTANCE = 0.1;

/** One step as drawn: its reading at the geometry of the plot. */
interface Step {
  readonly label: string;
  readonly reading: SampleReading;
}

/**
 * The reflectance of the steps of a tint ladder, coloured in order and labelled at their right ends with the share of
 * the toner. The geometry is that of the first reading when none is given; a step read over several backings shows
 * each. Throws `unknown-geometry` where nothing was read at it, and `wrong-length`.
 */
export function ladderPlot(
  ladder: TintLadder,
  names: TonerNames = {},
  geometry: Geometry | undefined = ladder.steps[0]?.readings[0]?.geometry,
): NotebookFigure {
  const steps = stepsAt(ladder, geometry);
  if (geometry === undefined || steps.length === 0) {
    throw new InputError("unknown-geometry", "geometry", `no step of the ladder was read at "${geometry}"`);
  }
  const room = Math.min(170, Math.max(...steps.map(({ label }) => textWidth(label))));
  const area: Area = {
    left: AXIS_ROOM.left,
    top: TITLE_HEIGHT + AXIS_ROOM.top,
    width: FIGURE_WIDTH - AXIS_ROOM.left - AXIS_ROOM.right - LEADER - room,
    height: HEIGHT,
  };
  const grids = steps.map(({ reading }) => reading.grid);
  const x = wavelengthScale(grids, across(area), 7);
  const values = steps.flatMap(({ reading }) => Array.from(reading.reflectance));
  const y = linearScale(niceDomain(extent([0, LEAST_REFLECTANCE, ...values]), 5), upwards(area), 5);
  const fans = steps.map(({ reading }) =>
    trace(x, y, wavelengths(reading.grid), Array.from(reading.reflectance)),
  );
  const shares = ladder.steps.map((sample) => percent(shareOf(sample, ladder.toner)));
  const toner = tonerName(names, ladder.toner);
  const other = tonerName(names, ladder.with);
  return figure(
    {
      title: `${toner} in ${other}: tint ladder, ${geometry}`,
      description: `Reflectance factor over ${x.domain[0]} to ${x.domain[1]} nm of ${ladder.steps.length} mixes, with ${shares.join(", ")} of ${toner}.`,
    },
    area.top + HEIGHT + AXIS_ROOM.bottom,
    axes(area, x, y, { x: "wavelength, nm", y: `reflectance factor, by share of ${toner}` }),
    ...fans.map((points, i) => line(points, { className: rampClass(i, fans.length) })),
    ...labels(steps, fans, area, room),
  );
}

function stepsAt({ toner, steps }: TintLadder, geometry: Geometry | undefined): readonly Step[] {
  return steps.flatMap((sample, i) => {
    const readings = sample.readings.filter((reading) => reading.geometry === geometry);
    return readings.map((reading, r): Step => {
      checkLength(reading.reflectance, reading.grid.count, `steps[${i}].readings[${r}].reflectance`);
      const share = percent(shareOf(sample, toner));
      if (readings.length === 1) return { label: share, reading };
      return { label: `${share} over ${reading.backingName ?? `backing ${r + 1}`}`, reading };
    });
  });
}

/** Labels at the right ends, moved apart, each with a stroke in its colour that leads to it. */
function labels(
  steps: readonly Step[],
  fans: readonly (readonly Point[])[],
  { left, top, width, height }: Area,
  room: number,
): readonly Markup[] {
  const ends = fans.map(
    (points) => finiteRuns(points).at(-1)?.at(-1) ?? ([left + width, top + height] as const),
  );
  const every = Math.ceil((steps.length * LINE) / (height + LINE));
  const shown = steps.map((_, i) => i).filter((i) => i % every === 0);
  const places = spreadOut(
    shown.map((i) => ends[i][1]),
    LINE,
    [top, top + height],
  );
  return shown.map((i, n) => {
    const right = left + width + LEADER;
    const leader: readonly Point[] = [ends[i], [right - 14, places[n]], [right - 4, places[n]]];
    return element(
      "g",
      {},
      element("path", {
        class: rampClass(i, steps.length),
        d: through(leader),
        fill: "none",
        stroke: "currentColor",
      }),
      element("text", { x: right, y: places[n] + 4 }, shortened(steps[i].label, room + 6)),
    );
  });
}

/** Shares of ladders go down by factors: two digits that count, at most two decimals. */
function percent(share: number): string {
  const value = 100 * share;
  const digits = value >= 10 ? 0 : value >= 1 ? 1 : 2;
  const text = decimals(value, digits);
  return `${text.includes(".") ? text.replace(/\.?0+$/, "") : text} %`;
}
