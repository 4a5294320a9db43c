import { type Lab, labFromXyz } from "../../colorimetry/lab.js";
import type { ForwardModel } from "../../forward/forwardModel.js";
import type { Aim } from "../../problem/goal.js";
import type { ColourBox } from "../records/proof.js";
import { type DifferenceCells, differenceCells, differenceNorm, FARTHEST } from "./differenceNorm.js";
import type { Functional, Reach } from "./reach.js";

/** An aim with what its colour must satisfy to be within some ΔE00 of it. */
export interface AimBall extends ColourBox {
  readonly aim: Aim;
  readonly cells: DifferenceCells;
}

/** f of CIE 1976 as rows of (L*, a*, b*): fx = (L + 16)/116 + a/500, fy = (L + 16)/116, fz = (L + 16)/116 − b/200. */
const AXES: readonly Lab[] = [
  [1 / 116, 1 / 500, 0],
  [1 / 116, 0, 0],
  [1 / 116, 0, -1 / 200],
];

const cubeRoot = (t: number): number => (labFromXyz([t, t, t], [1, 1, 1])[0] + 16) / 116;

/** Inverse of f, and its slope. */
const cube = (f: number): number => (f > 6 / 29 ? f ** 3 : (116 * f - 16) / (24389 / 27));
const slopeAt = (t: number): number => (t > 216 / 24389 ? 1 / (3 * Math.cbrt(t) ** 2) : 24389 / 27 / 116);

/** What is written into a proof is this much to the safe side. */
export const OUTWARD = 1 + 1e-6;

/** Nothing is known of an aim so far away that no bound is attempted; then there is no ball. */
export function aimBall(aim: Aim, within: number): AimBall | undefined {
  if (!(within > 0 && within <= FARTHEST)) return undefined;
  const cells = differenceCells(aim.lab, within);
  const [lightness, a, b] = aim.lab;
  const end = (axis: number, sign: number): number => {
    const n = AXES[axis].map((value) => sign * value) as unknown as Lab;
    const f = (lightness + 16) / 116 + AXES[axis][1] * a + AXES[axis][2] * b;
    return cube(f + sign * within * differenceNorm(cells, n) * OUTWARD);
  };
  return {
    aim,
    cells,
    low: [end(0, -1), end(1, -1), end(2, -1)],
    high: [end(0, 1), end(1, 1), end(2, 1)],
  };
}

/** What is needed to write a colour as a linear function of the additions. */
export interface ColourBasis {
  readonly model: ForwardModel;
  readonly reach: Reach;
  /** Functionals ≤ and ≥ reflectance·mean of every band, at `[band·columns + column]`. */
  readonly below: Float64Array;
  readonly above: Float64Array;
}

/** The six rows X ≤ X_high, X ≥ X_low, … of a ball: each functional is ≤ 0 for every mix whose colour is in it. */
export function axisColourRows(basis: ColourBasis, { aim, low, high }: AimBall): readonly Functional[] {
  return [0, 1, 2].flatMap((axis) => {
    const only = (value: number) => [0, 1, 2].map((other) => (other === axis ? value : 0));
    return [leastColour(basis, aim, only(1), -high[axis]), leastColour(basis, aim, only(-1), low[axis])];
  });
}

/**
 * A functional ≤ (n·(Lab − Lab_target))·mean for every mix in the ball: f of CIE 1976 is concave, so above its
 * secant over the ball and below its tangents.
 */
export function leastDistance(basis: ColourBasis, { aim, low, high }: AimBall, n: Lab): Functional {
  const [nL, na, nb] = n;
  const byF = [500 * na, 116 * nL - 500 * na + 200 * nb, -200 * nb];
  let constant = -16 * nL - (nL * aim.lab[0] + na * aim.lab[1] + nb * aim.lab[2]);
  const slopes = byF.map((factor, axis) => {
    const [from, to] = [low[axis], high[axis]];
    if (factor === 0) return 0;
    if (factor > 0) {
      const slope = (cubeRoot(to) - cubeRoot(from)) / (to - from);
      constant += factor * (cubeRoot(from) - slope * from);
      return factor * slope;
    }
    const at = (from + to) / 2;
    constant += factor * (cubeRoot(at) - slopeAt(at) * at);
    return factor * slopeAt(at);
  });
  return leastColour(basis, aim, slopes, constant);
}

/** Rounding of the sums over bands, so that functionals err to the safe side. */
const ROUNDING = 1e-12;

/** A functional ≤ (Σ factors·(X/Xn, Y/Yn, Z/Zn) + constant)·mean. */
function leastColour(
  { model, reach, below, above }: ColourBasis,
  { geometry, light }: Aim,
  [bx, by, bz]: readonly number[],
  constant: number,
): Functional {
  const { x, y, z, white } = model.lights[light].tristimulus;
  const bands = x.length;
  const { columns, mean } = reach;
  const byX = bx / white[0];
  const byY = by / white[1];
  const byZ = bz / white[2];
  const f = new Float64Array(columns);
  let scale = Math.abs(constant);
  for (let i = 0, at = geometry * bands * columns; i < bands; i++, at += columns) {
    const factor = byX * x[i] + byY * y[i] + byZ * z[i];
    const estimate = factor > 0 ? below : above;
    scale += Math.abs(factor);
    for (let c = 0; c < columns; c++) f[c] += factor * estimate[at + c];
  }
  for (let c = 0; c < columns; c++) f[c] += (constant - ROUNDING * scale) * mean[c];
  return f;
}
