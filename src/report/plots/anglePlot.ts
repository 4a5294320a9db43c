import { type Lab, lchFromLab } from "../../colorimetry/lab.js";
import { InputError } from "../../core/InputError.js";
import type { Correction, TargetPrediction } from "../../correction/correction.js";
import { geometryFacts } from "../../surface/geometry.js";
import { type Area, across, type Point, upwards } from "../chart/area.js";
import { AXIS_ROOM, axes } from "../chart/axes.js";
import { dots } from "../chart/dots.js";
import { element, type Markup } from "../chart/element.js";
import { FIGURE_WIDTH, figure, MARGIN, TITLE_HEIGHT } from "../chart/figure.js";
import { legend } from "../chart/legend.js";
import { line } from "../chart/line.js";
import type { NotebookFigure } from "../chart/notebookFigure.js";
import { extent, linearScale, niceDomain, type Scale } from "../chart/scale.js";
import { type SeriesStyle, seriesStyle } from "../chart/seriesStyle.js";
import { decimals } from "../words/decimals.js";

const HEIGHT = 150;

/** Left and right of the outermost angles. */
const MARGIN_DEGREES = 6;

/** Targets that are drawn; more curves than that hide one another. */
const MOST_TARGETS = 3;

/** Below this chroma a colour has no hue to speak of (our choice). */
const GREY = 1;

/** A least span for each axis, so that noise does not look like a difference. */
const LEAST_SPAN = { lightness: 5, chroma: 5, hue: 20 } as const;

interface Curve {
  readonly text: string;
  readonly style: SeriesStyle;
  readonly labs: readonly { readonly angle: number; readonly lab: Lab }[];
}

/**
 * L*, C* and h over the aspecular angle, under the first light: the card, the mix as predicted, the targets (the first three).
 * `after` says what the prediction is of. Hues turn round 360° where that keeps a curve together; greys have none.
 * Throws `missing` where no target was seen at two angles.
 */
export function anglePlot(
  { predictions }: Pick<Correction, "predictions">,
  after: string | null = "after the pours",
): NotebookFigure {
  const [{ illuminant }] = predictions;
  const seen = predictions
    .filter((one) => one.illuminant === illuminant)
    .flatMap((one) => {
      const { aspecular } = geometryFacts(one.geometry);
      return aspecular === undefined ? [] : [{ ...one, angle: aspecular }];
    })
    .sort((a, b) => a.angle - b.angle);
  const names = [...new Set(seen.map(({ target }) => target))].slice(0, MOST_TARGETS);
  const [first] = names;
  const of = (target: string, which: "labBefore" | "labAfter" | "labTarget") =>
    seen.filter((one) => one.target === target).map(({ angle, [which]: lab }) => ({ angle, lab }));
  const curves: readonly Curve[] = [
    ...(after === null ? [] : [{ text: `${after}, predicted`, labs: of(first, "labAfter") }]),
    { text: "card, as read", labs: of(first, "labBefore") },
    ...names.map((name) => ({ text: `target: ${name}`, labs: of(name, "labTarget") })),
  ].map((curve, i) => ({ ...curve, style: seriesStyle(i + (after === null ? 1 : 0)) }));
  if (new Set(seen.map(({ angle }) => angle)).size < 2) {
    throw new InputError("missing", "predictions", "no target was seen at two angles from the mirror's");
  }
  const keys = legend(
    curves.map(({ text, style }) => ({ text, style })),
    { left: MARGIN, top: TITLE_HEIGHT, width: FIGURE_WIDTH - 2 * MARGIN },
  );
  const width = FIGURE_WIDTH / 3 - AXIS_ROOM.left - AXIS_ROOM.right;
  const middle = hueBetween(curves.flatMap(({ labs }) => labs.map(({ lab }) => lab)));
  const parts = [
    { title: "L*", least: LEAST_SPAN.lightness, of: ([lightness]: Lab) => lightness },
    { title: "C*", least: LEAST_SPAN.chroma, of: (lab: Lab) => lchFromLab(lab)[1] },
    { title: "h, degrees", least: LEAST_SPAN.hue, of: (lab: Lab) => hueNear(lab, middle) },
  ];
  return figure(
    {
      title: `Over the angle from the mirror's: ${illuminant}`,
      description: names.map((name) => described(name, seen)).join(" "),
    },
    TITLE_HEIGHT + keys.height + AXIS_ROOM.top + HEIGHT + AXIS_ROOM.bottom,
    keys.markup,
    ...parts.map((part, i) =>
      panel(part, curves, {
        left: AXIS_ROOM.left + (i * FIGURE_WIDTH) / 3,
        top: TITLE_HEIGHT + keys.height + AXIS_ROOM.top,
        width,
        height: HEIGHT,
      }),
    ),
  );
}

function panel(
  { title, least, of }: { readonly title: string; readonly least: number; readonly of: (lab: Lab) => number },
  curves: readonly Curve[],
  area: Area,
): Markup {
  const angles = curves.flatMap(({ labs }) => labs.map(({ angle }) => angle));
  const [low, high] = extent(curves.flatMap(({ labs }) => labs.map(({ lab }) => of(lab))));
  const room = Math.max(0, least - (high - low)) / 2;
  const [nearest, furthest] = extent(angles);
  const x: Scale = linearScale([nearest - MARGIN_DEGREES, furthest + MARGIN_DEGREES], across(area), 3);
  const y: Scale = linearScale(niceDomain([low - room, high + room], 4), upwards(area), 4);
  const points = (labs: Curve["labs"]): readonly Point[] =>
    labs.map(({ angle, lab }) => {
      const value = of(lab);
      return [x.at(angle), Number.isFinite(value) ? y.at(value) : Number.NaN];
    });
  return element(
    "g",
    {},
    axes(area, x, y, { x: "aspecular angle, degrees", y: title }),
    ...curves.map(({ labs, style }) => line(points(labs), style)),
    ...curves.map(({ labs, style }) => dots(points(labs), style)),
  );
}

/** The hue that all these colours lie around, by their a* and b*. */
function hueBetween(labs: readonly Lab[]): number {
  const a = labs.reduce((sum, lab) => sum + lab[1], 0);
  const b = labs.reduce((sum, lab) => sum + lab[2], 0);
  return ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;
}

/** The hue of a colour within half a turn of another; NaN of a grey. */
function hueNear(lab: Lab, near: number): number {
  const [, chroma, hue] = lchFromLab(lab);
  if (chroma < GREY) return Number.NaN;
  return hue + 360 * Math.round((near - hue) / 360);
}

function described(name: string, seen: readonly (TargetPrediction & { readonly angle: number })[]): string {
  const own = seen.filter(({ target }) => target === name);
  const rows = own.map(
    ({ angle, deltaE00Before, deltaE00After }) =>
      `${angle}°: ΔE00 ${decimals(deltaE00Before, 2)} on the card, ${decimals(deltaE00After, 2)} as predicted`,
  );
  return `${name}, ${rows.join("; ")}.`;
}
