import type { Area, Point } from "./area.js";
import { element, type Markup } from "./element.js";
import { through } from "./trace.js";

const GAP = 7;

/** Slanting lines over an area: here nothing is known. Drawn line by line, since a pattern would need an id. */
export function hatch({ left, top, width, height }: Area, className: string): Markup {
  const strokes: string[] = [];
  for (let c = GAP; c < width + height; c += GAP) {
    const from: Point = [left + Math.max(0, c - height), top + Math.min(c, height)];
    const to: Point = [left + Math.min(c, width), top + Math.max(0, c - width)];
    strokes.push(through([from, to]));
  }
  return element("path", {
    class: className,
    d: strokes.join(""),
    fill: "none",
    stroke: "currentColor",
    "stroke-opacity": 0.45,
  });
}
