import { ciede2000 } from "./ciede2000.js";
import type { Lab, Matrix3 } from "./lab.js";

/** A vector in ΔE00. */
export type DifferenceVector = readonly [number, number, number];

/** Closer than this the local metric is exact to within what solvers ask of slopes. */
const NEAR = 1e-3;

/** For the slopes of ΔE00 itself: far below what shows, far above rounding. */
const STEP = 1e-5;

/**
 * v = s·M·d with d = ΔLab, M the local metric of CIEDE2000 at `target` (see `deltaE00Metric`) and s = ΔE00/‖M·d‖:
 * ‖v‖ is ΔE00 exactly, and v → M·d towards the target, so that least squares of v is smooth there and yet minimises the true
 * formula. Elsewhere it has the kinks of CIEDE2000. [C]
 */
export function deltaE00Vector(target: Lab, metric: Matrix3, lab: Lab): DifferenceVector {
  const near = transformed(metric, target, lab);
  const length = lengthOf(near);
  const scale = length < NEAR ? 1 : ciede2000(target, lab) / length;
  return [scale * near[0], scale * near[1], scale * near[2]];
}

/** ∂v/∂Lab: s·M + (M·d)·∇sᵀ, the slopes of ΔE00 by forward differences. */
export function deltaE00VectorSlopes(target: Lab, metric: Matrix3, lab: Lab): Matrix3 {
  const near = transformed(metric, target, lab);
  const length = lengthOf(near);
  if (length < NEAR) return metric;
  const difference = ciede2000(target, lab);
  const scale = difference / length;
  const slopeOfScale = [0, 1, 2].map((axis) => {
    const moved: [number, number, number] = [lab[0], lab[1], lab[2]];
    moved[axis] += STEP;
    const slope = (ciede2000(target, moved) - difference) / STEP;
    const ofLength =
      (near[0] * metric[0][axis] + near[1] * metric[1][axis] + near[2] * metric[2][axis]) / length;
    return (slope - scale * ofLength) / length;
  });
  const row = (i: 0 | 1 | 2) =>
    [0, 1, 2].map((axis) => scale * metric[i][axis] + near[i] * slopeOfScale[axis]) as unknown as readonly [
      number,
      number,
      number,
    ];
  return [row(0), row(1), row(2)];
}

function transformed(metric: Matrix3, target: Lab, lab: Lab): DifferenceVector {
  const l = lab[0] - target[0];
  const a = lab[1] - target[1];
  const b = lab[2] - target[2];
  return [
    metric[0][0] * l + metric[0][1] * a + metric[0][2] * b,
    metric[1][0] * l + metric[1][1] * a + metric[1][2] * b,
    metric[2][0] * l + metric[2][1] * a + metric[2][2] * b,
  ];
}

function lengthOf([x, y, z]: DifferenceVector): number {
  return Math.sqrt(x * x + y * y + z * z);
}
