import { checkTriple, checkWhite } from "./checkTriple.js";
import type { Xyz } from "./xyz.js";

/** CIE 1976 L*, a*, b*. */
export type Lab = readonly [lightness: number, a: number, b: number];

/** Lightness, chroma and hue angle h in degrees, 0 ≤ h < 360. */
export type Lch = readonly [lightness: number, chroma: number, hue: number];

/** Three rows of three. */
export type Matrix3 = readonly [
  readonly [number, number, number],
  readonly [number, number, number],
  readonly [number, number, number],
];

/** (6/29)³ and (29/3)³: the exact ratios that CIE 15 prints as 0.008856 and 903.3. */
const EPSILON = 216 / 24389;
const KAPPA = 24389 / 27;

const DEGREES = 180 / Math.PI;

/** The cube root of a ratio to white, linear (and so without end for negative ones) below ε. */
const f = (t: number) => (t > EPSILON ? Math.cbrt(t) : (KAPPA * t + 16) / 116);
const slopeOfF = (t: number) => (t > EPSILON ? 1 / (3 * Math.cbrt(t) ** 2) : KAPPA / 116);
const inverseOfF = (value: number) => (value > 6 / 29 ? value ** 3 : (116 * value - 16) / KAPPA);

/**
 * L* = 116 f(Y/Yn) − 16, a* = 500 (f(X/Xn) − f(Y/Yn)), b* = 200 (f(Y/Yn) − f(Z/Zn)); `white` > 0 is that of the
 * illuminant and observer of `xyz`. Negative values stay on the linear branch. Throws `missing` without a white,
 * `wrong-length`, `not-finite` and the like. Source: CIE 15, ISO/CIE 11664-4.
 */
export function checkedLabFromXyz(xyz: Xyz, white: Xyz): Lab {
  checkTriple(xyz, "xyz");
  checkWhite(white, "white");
  return labFromXyz(xyz, white);
}

/** The same of colours that were looked at before. */
export function labFromXyz([x, y, z]: Xyz, white: Xyz): Lab {
  const fx = f(x / white[0]);
  const fy = f(y / white[1]);
  const fz = f(z / white[2]);
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

/** Inverse of `labFromXyz`, which see. */
export function checkedXyzFromLab(lab: Lab, white: Xyz): Xyz {
  checkTriple(lab, "lab");
  checkWhite(white, "white");
  return xyzFromLab(lab, white);
}

/** The same of colours that were looked at before. */
export function xyzFromLab([lightness, a, b]: Lab, white: Xyz): Xyz {
  const fy = (lightness + 16) / 116;
  return [
    white[0] * inverseOfF(fy + a / 500),
    white[1] * inverseOfF(fy),
    white[2] * inverseOfF(fy - b / 200),
  ];
}

/** ∂(L*, a*, b*)/∂(X, Y, Z): the row of L*, of a* and of b*. Throws as `labFromXyz` does. */
export function checkedLabByXyz(xyz: Xyz, white: Xyz): Matrix3 {
  checkTriple(xyz, "xyz");
  checkWhite(white, "white");
  return labByXyz(xyz, white);
}

/** The same of colours that were looked at before. */
export function labByXyz([x, y, z]: Xyz, white: Xyz): Matrix3 {
  const byX = slopeOfF(x / white[0]) / white[0];
  const byY = slopeOfF(y / white[1]) / white[1];
  const byZ = slopeOfF(z / white[2]) / white[2];
  return [
    [0, 116 * byY, 0],
    [500 * byX, -500 * byY, 0],
    [0, 200 * byY, -200 * byZ],
  ];
}

/** C* = √(a*² + b*²) and h = atan2(b*, a*); the hue of a neutral is 0. Throws `wrong-length`, `not-finite` and the like. */
export function checkedLchFromLab(lab: Lab): Lch {
  checkTriple(lab, "lab");
  return lchFromLab(lab);
}

/** The same of a colour that was looked at before. */
export function lchFromLab([lightness, a, b]: Lab): Lch {
  const hue = Math.atan2(b, a) * DEGREES;
  return [lightness, Math.hypot(a, b), hue < 0 ? hue + 360 : hue];
}

/** Inverse of `lchFromLab`; any hue angle in degrees will do. Throws `wrong-length`, `not-finite` and the like. */
export function labFromLch(lch: Lch): Lab {
  checkTriple(lch, "lch");
  const [lightness, chroma, hue] = lch;
  return [lightness, chroma * Math.cos(hue / DEGREES), chroma * Math.sin(hue / DEGREES)];
}
