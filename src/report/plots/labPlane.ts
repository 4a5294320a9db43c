import type { Lab } from "../../colorimetry/lab.js";
import { type Area, across, type Point, upwards } from "../chart/area.js";
import { element, type Markup } from "../chart/element.js";
import type { PlacedLabel } from "../chart/placeLabels.js";
import { extent, type Interval, linearScale, type Scale } from "../chart/scale.js";
import { through } from "../chart/trace.js";

/** A plane through Lab. */
export type PlaneName = "a*b*" | "C*L*";

/** A plane through Lab: how a colour and an ellipse stand in it. */
export interface LabPlane {
  readonly name: PlaneName;
  readonly x: string;
  readonly y: string;
  readonly of: (lab: Lab) => Point;
  readonly key: "ab" | "cl";
  readonly labels: "text" | "short";
}

export const PLANES: readonly LabPlane[] = [
  {
    name: "a*b*",
    x: "a*, redder →",
    y: "b*, yellower ↑",
    of: ([, a, b]) => [a, b],
    key: "ab",
    labels: "text",
  },
  {
    name: "C*L*",
    x: "C*, more chromatic →",
    y: "L*, lighter ↑",
    of: ([l, a, b]) => [Math.hypot(a, b), l],
    key: "cl",
    labels: "short",
  },
];

/** Scales with as many pixels per unit along x as along y, around all points, with a margin. */
export function equalScales(points: readonly Point[], area: Area): { readonly x: Scale; readonly y: Scale } {
  const [left, right] = extent(points.map(([u]) => u));
  const [low, high] = extent(points.map(([, v]) => v));
  const unit = Math.max(0.01, 1.25 * Math.max((right - left) / area.width, (high - low) / area.height));
  const around = (middle: number, pixels: number): Interval => [
    middle - (unit * pixels) / 2,
    middle + (unit * pixels) / 2,
  ];
  return {
    x: linearScale(around((left + right) / 2, area.width), across(area), 5),
    y: linearScale(around((low + high) / 2, area.height), upwards(area), 5),
  };
}

/** Lines from points to labels that stand far off. */
export function leadersOf(labels: readonly PlacedLabel[]): readonly Markup[] {
  return labels.flatMap(({ leader }) =>
    leader
      ? [
          element("path", {
            class: "unknown",
            d: through(leader),
            stroke: "currentColor",
            "stroke-opacity": 0.6,
          }),
        ]
      : [],
  );
}

/** The labels themselves, on top of the data. */
export function textsOf(labels: readonly PlacedLabel[]): readonly Markup[] {
  return labels.map(({ text, box }) =>
    element("text", { class: "on-data", x: box.left, y: box.top + 12 }, text),
  );
}
