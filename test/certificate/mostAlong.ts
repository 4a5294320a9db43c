import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import type { Lab } from "../../src/colorimetry/lab.js";

/** Greys, both sides of hue 0, the blues where R_T turns the ellipsoids, strong colours, black and white. */
export const TARGETS: readonly Lab[] = [
  [50, 0, 0],
  [60, 0.5, -0.3],
  [55, 30, 0.4],
  [55, 30, -0.4],
  [40, 15, -45],
  [35, 2, -30],
  [70, -40, 35],
  [45, 60, 40],
  [85, -5, 80],
  [50, -30, 0.2],
  [3, 1, -2],
  [99, 0, 3],
];
export const WAYS: readonly Lab[] = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
  [0.3, 0.7, -0.6],
  [-0.5, -0.4, 0.8],
];

/** The largest n·d/ΔE00 over colours within a distance: by an ever finer search around the best so far. */
export function mostAlong(target: Lab, n: Lab, within: number): number {
  const value = (d: Lab): number => {
    const colour = target.map((t, axis) => t + d[axis]) as unknown as Lab;
    // No paint is darker than black, and none is whiter than the perfect diffuser.
    if (!(colour[0] >= 0 && colour[0] <= 100)) return Number.NEGATIVE_INFINITY;
    const difference = ciede2000(target, colour);
    if (!(difference <= within && difference > 1e-4 * within)) return Number.NEGATIVE_INFINITY;
    return (n[0] * d[0] + n[1] * d[1] + n[2] * d[2]) / difference;
  };
  let best = { d: [0, 0, 0] as Lab, value: Number.NEGATIVE_INFINITY };
  const tryAt = (d: Lab) => {
    const found = value(d);
    if (found > best.value) best = { d, value: found };
  };
  const steps = [-1, -0.6, -0.3, -0.1, 0, 0.1, 0.3, 0.6, 1];
  const reach = within * (2 + 0.1 * Math.hypot(target[1], target[2]));
  for (const l of steps)
    for (const a of steps) for (const b of steps) tryAt([l * 2 * within, a * reach, b * reach]);
  for (let size = 0.3 * reach; size > 1e-4 * within; size *= 0.6) {
    const { d } = best;
    for (const l of [-1, 0, 1])
      for (const a of [-1, 0, 1])
        for (const b of [-1, 0, 1]) tryAt([d[0] + size * l, d[1] + size * a, d[2] + size * b]);
  }
  return best.value;
}
