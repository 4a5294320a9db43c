import { ciede2000 } from "./ciede2000.js";
import { ciede2000Slopes } from "./ciede2000Slopes.js";
import type { Lab, Matrix3 } from "./lab.js";

/** A vector in ΔE00. */
export type DifferenceVector = readonly [number, number, number];

/** Closer than this the local metric is exact to within what solvers ask of slopes. */
const NEAR = 1e-3;

/**
 * v = s·M·d with d = ΔLab, M the local metric of CIEDE2000 at `target` (see `deltaE00Metric`) and s = ΔE00/‖M·d‖:
 * ‖v‖ is ΔE00 exactly, and v → M·d towards the target, so that least squares of v is smooth there and yet minimises the true
 * formula. Elsewhere it has the kinks of CIEDE2000. [C]
 */
export function deltaE00Vector(target: Lab, metric: Matrix3, lab: Lab): DifferenceVector {
  const near = transformed(metric, target, lab);
  const length = lengthOf(near);
  return scaled(near, length < NEAR ? 1 : ciede2000(target, lab) / length);
}

/** The same v with its slopes ∂v/∂Lab = s·M + (M·d)·∇sᵀ. */
export function deltaE00VectorSlopes(
  target: Lab,
  metric: Matrix3,
  lab: Lab,
): { readonly vector: DifferenceVector; readonly slopes: Matrix3 } {
  const near = transformed(metric, target, lab);
  const length = lengthOf(near);
  if (length < NEAR) return { vector: near, slopes: metric };
  const { difference, slopes } = ciede2000Slopes(target, lab);
  const scale = difference / length;
  const [mL, mA, mB] = metric;
  const slopeOfScale = (axis: 0 | 1 | 2) =>
    (slopes[axis] - (scale * (near[0] * mL[axis] + near[1] * mA[axis] + near[2] * mB[axis])) / length) /
    length;
  const [byL, byA, byB] = [slopeOfScale(0), slopeOfScale(1), slopeOfScale(2)];
  const row = (of: DifferenceVector, to: number): DifferenceVector => [
    scale * of[0] + to * byL,
    scale * of[1] + to * byA,
    scale * of[2] + to * byB,
  ];
  return { vector: scaled(near, scale), slopes: [row(mL, near[0]), row(mA, near[1]), row(mB, near[2])] };
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

function scaled([x, y, z]: DifferenceVector, by: number): DifferenceVector {
  return [by * x, by * y, by * z];
}

function lengthOf([x, y, z]: DifferenceVector): number {
  return Math.sqrt(x * x + y * y + z * z);
}
