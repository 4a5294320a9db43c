import { srgbHex } from "../../colorimetry/colorjs.js";
import type { Lab } from "../../colorimetry/lab.js";
import { alongPath } from "../chart/alongPath.js";
import type { Area, Point } from "../chart/area.js";
import { AXIS_ROOM, axes } from "../chart/axes.js";
import { outline } from "../chart/dots.js";
import { element } from "../chart/element.js";
import { figure, HALF_WIDTH, TITLE_HEIGHT } from "../chart/figure.js";
import type { NotebookFigure } from "../chart/notebookFigure.js";
import { placeLabels } from "../chart/placeLabels.js";
import { shortened } from "../chart/textWidth.js";
import { through } from "../chart/trace.js";
import { decimals } from "../words/decimals.js";
import { equalScales, leadersOf, PLANES, type PlaneName, textsOf } from "./labPlane.js";

const HEIGHT = 260;
const LABEL_ROOM = 120;

/** A colour that something leads to. */
export interface Destination {
  readonly name: string;
  readonly lab: Lab;
}

/** From one colour to others, in a plane of Lab: a line to each, its end in its own colour as a screen shows it. */
export function directionPlot(
  from: Lab,
  destinations: readonly Destination[],
  planeName: PlaneName,
): NotebookFigure {
  const plane = PLANES.find(({ name }) => name === planeName) ?? PLANES[0];
  const area: Area = {
    left: AXIS_ROOM.left,
    top: TITLE_HEIGHT + AXIS_ROOM.top,
    width: HALF_WIDTH - AXIS_ROOM.left - AXIS_ROOM.right,
    height: HEIGHT,
  };
  const { x, y } = equalScales([from, ...destinations.map(({ lab }) => lab)].map(plane.of), area);
  const place = (lab: Lab): Point => {
    const [u, v] = plane.of(lab);
    return [x.at(u), y.at(v)];
  };
  const start = place(from);
  const ends = destinations.map(({ lab }) => place(lab));
  const labels = placeLabels(
    destinations.map(({ name }, i) => ({ at: ends[i], text: shortened(name, LABEL_ROOM) })),
    [start, ...ends, ...ends.flatMap((end) => alongPath([start, end]))],
    area,
  );
  return figure(
    {
      width: HALF_WIDTH,
      title: `One per cent of each, ${planeName}`,
      description: `From L* a* b* ${labText(from)}. ${destinations.map(({ name, lab }) => `${name}: ${labText(lab)}.`).join(" ")}`,
    },
    area.top + area.height + AXIS_ROOM.bottom,
    axes(area, x, y, { x: plane.x, y: plane.y }),
    ...ends.map((end) =>
      element("path", {
        d: through([start, end]),
        fill: "none",
        stroke: "currentColor",
        "stroke-width": 1.5,
      }),
    ),
    ...leadersOf(labels),
    ...[
      { lab: from, at: start, shape: "square" as const },
      ...destinations.map(({ lab }, i) => ({ lab, at: ends[i], shape: "circle" as const })),
    ].map(({ lab, at, shape }) =>
      element("path", {
        d: outline(at, shape, 5),
        fill: srgbHex(lab).hex,
        stroke: "currentColor",
        "stroke-width": 1.5,
      }),
    ),
    ...textsOf(labels),
  );
}

const labText = (lab: Lab): string => lab.map((value) => decimals(value, 1)).join(", ");
