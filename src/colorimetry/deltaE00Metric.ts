import { checkFactors, checkTriple } from "./checkTriple.js";
import {
  CIEDE2000_RANGES,
  CIEDE2000_REFERENCE,
  type Ciede2000Options,
  ciede2000Weights,
  hueAngle,
  redGreenStretch,
} from "./ciede2000.js";
import type { Lab, Matrix3 } from "./lab.js";

/**
 * Rows M such that ΔE00 ≈ ‖M·d‖ for a small difference d = (ΔL*, Δa*, Δb*) from `lab`: the residual of a smooth
 * least squares. The metric is G = MᵀM; ΔE00/‖M·d‖ → 1 as d → 0.
 * With (u, v) = (ΔC′/(kC·SC), ΔH′/(kH·SH)) turned out of (Δa′, Δb*), Δa′ = (1 + G)Δa*, the rows are
 * ΔL / (kL·SL), u + v·RT/2 and v·√(1 − RT²/4). Neutrals need no care: there S and RT do not depend on hue.
 * Throws `wrong-length`, `not-finite` and the like.
 */
export function checkedDeltaE00Metric(lab: Lab, options?: Ciede2000Options): Matrix3 {
  checkTriple(lab, "lab");
  checkFactors(options, CIEDE2000_RANGES);
  return deltaE00Metric(lab, options);
}

/** The same of a colour that was looked at before. */
export function deltaE00Metric(
  [lightness, a, b]: Lab,
  { kL, kC, kH }: Ciede2000Options = CIEDE2000_REFERENCE,
): Matrix3 {
  const stretch = redGreenStretch(Math.hypot(a, b));
  const hue = hueAngle(stretch * a, b);
  const { sL, sC, sH, rT } = ciede2000Weights(lightness, Math.hypot(stretch * a, b), hue);
  const cos = Math.cos(hue);
  const sin = Math.sin(hue);
  const chroma = [(cos * stretch) / (kC * sC), sin / (kC * sC)] as const;
  const turn = [(-sin * stretch) / (kH * sH), cos / (kH * sH)] as const;
  const rest = Math.sqrt(1 - (rT * rT) / 4);
  return [
    [1 / (kL * sL), 0, 0],
    [0, chroma[0] + (rT / 2) * turn[0], chroma[1] + (rT / 2) * turn[1]],
    [0, rest * turn[0], rest * turn[1]],
  ];
}
