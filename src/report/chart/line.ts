import type { Point } from "./area.js";
import { element, type Markup } from "./element.js";
import { finiteRuns, through } from "./trace.js";

/** What a line needs of a series style. */
export interface LineStyle {
  readonly className: string;
  readonly dash?: string;
}

/** A line through points with gaps where one is missing; a point alone is a short stroke, so that it is seen. */
export function line(points: readonly Point[], { className, dash }: LineStyle): Markup {
  const d = finiteRuns(points)
    .map((run) => (run.length === 1 ? through([shifted(run[0], -2.5), shifted(run[0], 2.5)]) : through(run)))
    .join("");
  return element("path", {
    class: className,
    d,
    fill: "none",
    stroke: "currentColor",
    "stroke-width": 1.75,
    "stroke-linejoin": "round",
    "stroke-dasharray": dash,
  });
}

function shifted([x, y]: Point, by: number): Point {
  return [x + by, y];
}
