import { srgbHex } from "../../colorimetry/colorjs.js";
import type { Lab } from "../../colorimetry/lab.js";
import { InputError } from "../../core/InputError.js";
import type { Correction, TargetPrediction } from "../../correction/correction.js";
import { alongPath } from "../chart/alongPath.js";
import type { Area, Point } from "../chart/area.js";
import { AXIS_ROOM, axes } from "../chart/axes.js";
import { outline } from "../chart/dots.js";
import { element, type Markup } from "../chart/element.js";
import { FIGURE_WIDTH, figure, HALF_WIDTH, TITLE_HEIGHT } from "../chart/figure.js";
import type { NotebookFigure } from "../chart/notebookFigure.js";
import { placeLabels } from "../chart/placeLabels.js";
import type { DotShape } from "../chart/seriesStyle.js";
import { shortened } from "../chart/textWidth.js";
import { through } from "../chart/trace.js";
import { colourWords } from "../words/colourWords.js";
import { decimals } from "../words/decimals.js";
import { IN_GRAMS, type MassDisplay, massText } from "../words/massText.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";
import { equalScales, type LabPlane, leadersOf, PLANES, type PlaneName, textsOf } from "./labPlane.js";
import { toleranceEllipse } from "./toleranceEllipse.js";

/** How a plot of the way is drawn. */
export interface LabPlotOptions {
  /** Of the two planes, in pixels. */
  readonly height?: number;
  /** The unit of the amounts. */
  readonly display?: MassDisplay;
  /** One plane alone, half as wide, its pours by their numbers; both side by side when absent. */
  readonly plane?: PlaneName;
}

const LAB_PLOT_DEFAULTS = Object.freeze({ height: 330, display: IN_GRAMS });

const LABEL_ROOM = 190;
const NAME_ROOM = 120;

/** From this tolerance on no ellipse is drawn: it would span black to white. */
const ANY_COLOUR = 100;

/** A colour on the way or a target. */
interface Spot {
  readonly lab: Lab;
  readonly text: string;
  /** Shorter label, where the full name stands beside it already. */
  readonly short: string;
  readonly shape: DotShape;
}

const SPRAYED = { text: "sprayed so", short: "sprayed so", shape: "circle" } as const;

/**
 * The way of a correction in a*b* and in L*C*, at the first geometry and light of its predictions: the card, the
 * colour after each pour and of a card that is sprayed otherwise, the targets, each dot in its own colour as a screen
 * shows it, and around each target what it allows (`toleranceEllipse`). Both axes of a plane have one scale. Throws `missing` without predictions.
 */
export function labPlot(
  correction: Correction,
  names: TonerNames = {},
  options: LabPlotOptions = {},
): NotebookFigure {
  const { height, display, plane: alone } = { ...LAB_PLOT_DEFAULTS, ...options };
  const isAlone = alone !== undefined;
  const { status, additions, predictions } = correction;
  if (predictions.length === 0) throw new InputError("missing", "predictions", "nothing is predicted");
  const [first] = predictions;
  const targets = predictions.filter(
    ({ geometry, illuminant }) => geometry === first.geometry && illuminant === first.illuminant,
  );
  const way: readonly Spot[] = [
    { lab: first.labBefore, text: "card", short: "card", shape: "square" },
    ...additions.map(({ toner, grams, labAfter }, i): Spot => {
      const text = `${i + 1} ${shortened(tonerName(names, toner), NAME_ROOM)} ${massText(grams, display, toner)}`;
      return { lab: labAfter, text, short: `${i + 1}`, shape: "circle" };
    }),
    ...(status === "respray" ? [{ lab: first.labAfter, ...SPRAYED }] : []),
  ];
  const goals = targets.map(
    ({ target, labTarget }): Spot => ({ lab: labTarget, text: target, short: target, shape: "diamond" }),
  );
  const planes = PLANES.filter(({ name }) => !isAlone || name === alone);
  const whole = isAlone ? HALF_WIDTH : FIGURE_WIDTH;
  const room = AXIS_ROOM.left + AXIS_ROOM.right;
  const width = whole / planes.length - room;
  return figure(
    {
      width: whole,
      title: `${alone ?? "From the card to the target"}: ${first.geometry}, ${first.illuminant}`,
      description: `${targets.map((target) => targetText(target)).join(" ")} ${additions.length} ${additions.length === 1 ? "pour" : "pours"}.`,
    },
    TITLE_HEIGHT + AXIS_ROOM.top + height + AXIS_ROOM.bottom,
    ...planes.map((plane, i) =>
      panel(isAlone ? { ...plane, labels: "short" } : plane, way, goals, targets, {
        left: AXIS_ROOM.left + i * (width + room),
        top: TITLE_HEIGHT + AXIS_ROOM.top,
        width,
        height,
      }),
    ),
  );
}

function panel(
  plane: LabPlane,
  way: readonly Spot[],
  goals: readonly Spot[],
  targets: readonly TargetPrediction[],
  area: Area,
): Markup {
  const rings = targets
    .filter(({ deltaE00Allowed }) => deltaE00Allowed > 0 && deltaE00Allowed < ANY_COLOUR)
    .map(({ labTarget, deltaE00Allowed }) => toleranceEllipse(labTarget, deltaE00Allowed)[plane.key]);
  const spots = [...goals, ...way];
  const all = [...spots.map(({ lab }) => plane.of(lab)), ...rings.flat()];
  const { x, y } = equalScales(all, area);
  const place = ([u, v]: Point): Point => [x.at(u), y.at(v)];
  const points = spots.map(({ lab }) => place(plane.of(lab)));
  const path = points.slice(goals.length);
  const labels = placeLabels(
    spots.map((spot, i) => ({ at: points[i], text: shortened(spot[plane.labels], LABEL_ROOM) })),
    [...points, ...alongPath(path)],
    area,
  );
  return element(
    "g",
    {},
    axes(area, x, y, { x: plane.x, y: plane.y }),
    ...rings.map((ring) =>
      element("path", {
        class: "unknown",
        d: through(ring.map(place), "Z"),
        fill: "currentColor",
        "fill-opacity": 0.12,
        stroke: "currentColor",
        "stroke-dasharray": "4 3",
      }),
    ),
    element("path", { d: through(path), fill: "none", stroke: "currentColor", "stroke-width": 1.5 }),
    ...leadersOf(labels),
    ...spots.map(({ lab, shape }, i) =>
      element("path", {
        d: outline(points[i], shape, 5),
        fill: srgbHex(lab).hex,
        stroke: "currentColor",
        "stroke-width": 1.5,
      }),
    ),
    ...textsOf(labels),
  );
}

function targetText({ target, labBefore, labTarget, labAfter, ...differences }: TargetPrediction): string {
  const { deltaE00Before, deltaE00After, deltaE00Allowed } = differences;
  return `${target}: ΔE00 from ${decimals(deltaE00Before, 2)} on the card to ${decimals(deltaE00After, 2)}, allowed ${decimals(deltaE00Allowed, 2)}; against the card it should be ${colourWords(labBefore, labTarget)}, and will be ${colourWords(labTarget, labAfter)}.`;
}
