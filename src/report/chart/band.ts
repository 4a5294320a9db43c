import type { Point } from "./area.js";
import { element, type Markup } from "./element.js";
import { finiteRuns, through } from "./trace.js";

/** The area between two lines over the same x, with gaps where either has one. */
export function band(lower: readonly Point[], upper: readonly Point[], className: string): Markup {
  const known = lower.map(([x, y], i): Point => [x, Number.isFinite(upper[i][1]) ? y : Number.NaN]);
  let next = 0;
  const d = finiteRuns(known)
    .map((run) => {
      next = known.indexOf(run[0], next);
      const above = upper.slice(next, next + run.length).reverse();
      return through([...run, ...above], "Z");
    })
    .join("");
  return element("path", { class: className, d, fill: "currentColor", "fill-opacity": 0.2, stroke: "none" });
}
