import type { TonerQuality } from "../../characterisation/characterisation.js";
import { type Grid, gridEnd, wavelengths } from "../../spectra/grid.js";
import { wavelengthRanges, wavelengthsText } from "../../spectra/wavelengthRanges.js";
import type { Toner } from "../../toners/toner.js";
import { tonerIndex } from "../../toners/tonerIndex.js";
import type { TonerSet } from "../../toners/tonerSet.js";
import { type Area, across, upwards } from "../chart/area.js";
import { AXIS_ROOM, axes } from "../chart/axes.js";
import { band } from "../chart/band.js";
import { element, type Markup } from "../chart/element.js";
import { FIGURE_WIDTH, figure, MARGIN, TITLE_HEIGHT } from "../chart/figure.js";
import { hatch } from "../chart/hatch.js";
import { type LegendEntry, legend } from "../chart/legend.js";
import { line } from "../chart/line.js";
import { logScale } from "../chart/logScale.js";
import type { NotebookFigure } from "../chart/notebookFigure.js";
import { clamp, extent, type Interval, type Scale } from "../chart/scale.js";
import { seriesStyle } from "../chart/seriesStyle.js";
import { trace } from "../chart/trace.js";
import { checkLength } from "./checkLength.js";
import { wavelengthScale } from "./wavelengthScale.js";

const HEIGHT = 250;
const UNKNOWN = { className: "unknown", shape: "circle" } as const;

/** 95 % of a normal law. */
const Z = 1.96;

/** A band may stretch the axis by this factor beyond the spectrum, no further. */
const MOST_STRETCH = 10;

/** Decades below the largest value that are shown; what is smaller runs along the lower edge. */
const MOST_RATIO = 1e4;

/** One of K and S of a toner at a geometry, with its uncertainty. */
interface Coefficient {
  readonly title: string;
  readonly values: readonly number[];
  readonly sdOfLog: readonly number[];
  /** Wavelengths at which nothing can be said of it, and those among them for which no reason is given. */
  readonly unknown: readonly number[];
  readonly unexplained: readonly number[];
}

/**
 * K and S of a toner side by side on log axes, each with the band of ±1.96 standard deviations of its logarithm;
 * hatched, without a line, where the samples do not tell it. Throws `unknown-toner` and `wrong-length`.
 */
export function tonerPlot(set: TonerSet, quality: TonerQuality): NotebookFigure {
  const toner = set.toners[tonerIndex(set.toners, quality.id, "quality.id")];
  const both = [coefficientOf(toner, quality, set.grid, "k"), coefficientOf(toner, quality, set.grid, "s")];
  const gaps = [...reasonTexts(quality, set.grid), ...both.flatMap(unexplainedText(set.grid))];
  const keys = legend(
    gaps.map((text): LegendEntry => ({ text, style: UNKNOWN, mark: "hatch" })),
    { left: MARGIN, top: TITLE_HEIGHT, width: FIGURE_WIDTH - 2 * MARGIN },
  );
  const width = (FIGURE_WIDTH - 2 * (AXIS_ROOM.left + AXIS_ROOM.right)) / 2;
  const areaOf = (i: number): Area => ({
    left: AXIS_ROOM.left + i * (width + AXIS_ROOM.left + AXIS_ROOM.right),
    top: TITLE_HEIGHT + keys.height + AXIS_ROOM.top + 4,
    width,
    height: HEIGHT,
  });
  return figure(
    {
      title: `${toner.name ?? toner.id}: K and S, ${quality.geometry}`,
      description: `Absorption K and scattering S over ${set.grid.start} to ${gridEnd(set.grid)} nm on log axes, with bands of 1.96 standard deviations. ${gaps.join(". ") || "Both can be told at every wavelength"}.`,
    },
    areaOf(0).top + HEIGHT + AXIS_ROOM.bottom,
    keys.markup,
    ...both.map((coefficient, i) => panel(coefficient, set.grid, areaOf(i), i)),
  );
}

function panel(
  { title, values, sdOfLog, unknown }: Coefficient,
  grid: Grid,
  area: Area,
  series: number,
): Markup {
  const { className } = seriesStyle(series);
  const nm = wavelengths(grid);
  const known = values.map((value, i) => (value > 0 && !unknown.includes(nm[i]) ? value : Number.NaN));
  const isAnyKnown = known.some((value) => value > 0);
  const edge = (side: number) => known.map((value, i) => value * Math.exp(side * Z * sdOfLog[i]));
  const x = wavelengthScale([grid], across(area), 4);
  const y = logScale(domainFor(known, [...edge(-1), ...edge(1)]), upwards(area));
  const shown = (edges: readonly number[]) => edges.map((value) => clamp(value, y.domain));
  return element(
    "g",
    {},
    ...wavelengthRanges(unknown, grid.step).map((range) =>
      hatch(columnOf(range, grid, x, area), UNKNOWN.className),
    ),
    axes(area, x, isAnyKnown ? y : { ...y, ticks: [] }, {
      x: "wavelength, nm",
      y: `${title}, with ±1.96 sd (log scale)`,
    }),
    band(trace(x, y, nm, shown(edge(-1))), trace(x, y, nm, shown(edge(1))), className),
    line(trace(x, y, nm, known), { className }),
    ...(isAnyKnown ? [] : [emptyText(values, area)]),
  );
}

/** The column of a range of bands: half a step to either side, inside the area. */
function columnOf([first, last]: Interval, { step }: Grid, x: Scale, area: Area): Area {
  const left = x.at(first - step / 2);
  return { ...area, left, width: x.at(last + step / 2) - left };
}

function emptyText(values: readonly number[], { left, top, width, height }: Area): Markup {
  const text = values.every((value) => value === 0)
    ? "0 at every wavelength"
    : "cannot be told at any wavelength";
  return element(
    "text",
    { class: "on-data", x: left + width / 2, y: top + height / 2, "text-anchor": "middle" },
    text,
  );
}

function coefficientOf(toner: Toner, quality: TonerQuality, grid: Grid, key: "k" | "s"): Coefficient {
  const values = toner[key][quality.geometry] ?? [];
  const sdOfLog = key === "k" ? quality.sdOfLogK : quality.sdOfLogS;
  checkLength(values, grid.count, `toners.${key}`);
  checkLength(sdOfLog, grid.count, key === "k" ? "quality.sdOfLogK" : "quality.sdOfLogS");
  const explained = quality.notIdentifiable
    .filter(({ what }) => what === key)
    .flatMap((entry) => entry.wavelengths);
  const isExplained = (nm: number) => explained.some((other) => Math.abs(other - nm) < grid.step / 2);
  const unknown = Array.from(wavelengths(grid)).filter(
    (nm, i) => !Number.isFinite(sdOfLog[i]) || isExplained(nm),
  );
  return {
    title: key === "k" ? "K, absorption" : "S, scattering",
    values: Array.from(values),
    sdOfLog,
    unknown,
    unexplained: unknown.filter((nm) => !isExplained(nm)),
  };
}

function reasonTexts({ notIdentifiable }: TonerQuality, { step }: Grid): readonly string[] {
  return notIdentifiable
    .filter(({ wavelengths }) => wavelengths.length > 0)
    .map(
      ({ what, wavelengths, reason }) =>
        `${what.toUpperCase()} cannot be told (${reason}): ${wavelengthsText(wavelengths, step)}`,
    );
}

const unexplainedText =
  ({ step }: Grid) =>
  ({ title, unexplained }: Coefficient): readonly string[] =>
    unexplained.length === 0 ? [] : [`${title[0]} cannot be told: ${wavelengthsText(unexplained, step)}`];

function domainFor(known: readonly number[], edges: readonly number[]): readonly [number, number] {
  const positive = known.filter((value) => value > 0);
  if (positive.length === 0) return [0.01, 1];
  const [least, high] = extent(positive);
  const low = Math.max(least, high / MOST_RATIO);
  const [lowest, highest] = extent([low, high, ...edges.filter((value) => value > 0)]);
  return [Math.max(lowest, low / MOST_STRETCH), Math.min(highest, high * MOST_STRETCH)];
}
