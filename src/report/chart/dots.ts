import type { Point } from "./area.js";
import { element, type Markup } from "./element.js";
import type { DotShape } from "./seriesStyle.js";
import { through } from "./trace.js";

/** Corners of a dot of radius 1; the shapes differ in reach so that they look equally large. */
const CORNERS = {
  square: [
    [-0.9, -0.9],
    [0.9, -0.9],
    [0.9, 0.9],
    [-0.9, 0.9],
  ],
  triangle: [
    [0, -1.25],
    [1.15, 0.85],
    [-1.15, 0.85],
  ],
  diamond: [
    [0, -1.3],
    [1.3, 0],
    [0, 1.3],
    [-1.3, 0],
  ],
} as const satisfies Record<Exclude<DotShape, "circle">, readonly Point[]>;

/** A dot at each point that there is, all in one path. */
export function dots(
  points: readonly Point[],
  { className, shape }: { readonly className: string; readonly shape: DotShape },
  radius = 2.5,
): Markup {
  const d = points
    .filter((point) => point.every(Number.isFinite))
    .map((point) => outline(point, shape, radius))
    .join("");
  return element("path", { class: className, d, fill: "currentColor", stroke: "none" });
}

/** `d` of one dot. */
export function outline([x, y]: Point, shape: DotShape, radius: number): string {
  if (shape !== "circle") {
    return through(
      CORNERS[shape].map(([dx, dy]): Point => [x + radius * dx, y + radius * dy]),
      "Z",
    );
  }
  const half = `a${radius} ${radius} 0 1 0`;
  return `${through([[x - radius, y]])}${half} ${2 * radius} 0${half} ${-2 * radius} 0Z`;
}
