import type { Point } from "./area.js";
import { rounded } from "./element.js";
import type { Scale } from "./scale.js";

/** Pixels of a series; NaN in y where a value is not finite. */
export function trace(x: Scale, y: Scale, xs: ArrayLike<number>, ys: ArrayLike<number>): readonly Point[] {
  return Array.from(xs, (value, i) => [x.at(value), Number.isFinite(ys[i]) ? y.at(ys[i]) : Number.NaN]);
}

/** Runs of neighbours that are all finite: where one is not, a line has a gap. */
export function finiteRuns(points: readonly Point[]): readonly (readonly Point[])[] {
  const runs: Point[][] = [];
  let run: Point[] = [];
  for (const point of points) {
    if (point.every(Number.isFinite)) {
      if (run.length === 0) runs.push(run);
      run.push(point);
    } else {
      run = [];
    }
  }
  return runs;
}

/** `d` of a path through points, open or closed. */
export function through(points: readonly Point[], end: "" | "Z" = ""): string {
  return points.map(([x, y], i) => `${i === 0 ? "M" : "L"}${rounded(x)} ${rounded(y)}`).join("") + end;
}
