import { deltaE00Metric } from "../../colorimetry/deltaE00Metric.js";
import type { Lab } from "../../colorimetry/lab.js";

const CORNERS = 72;

/**
 * What a colour difference allows around a target, cut through the ellipsoid ‖M·d‖ = allowed of the local metric of
 * CIEDE2000 there (`deltaE00Metric`): corners (a*, b*) at the lightness of the target, and (C*, L*) at its hue, C* ≥ 0.
 * `allowed` > 0, in units of ΔE00.
 */
export function toleranceEllipse(
  target: Lab,
  allowed: number,
): {
  readonly ab: readonly (readonly [number, number])[];
  readonly cl: readonly (readonly [number, number])[];
} {
  const metric = deltaE00Metric(target);
  const [lightness, a, b] = target;
  const chroma = Math.hypot(a, b);
  const hue = Math.atan2(b, a);
  const reach = (direction: Lab) =>
    allowed /
    Math.hypot(...metric.map((row) => row.reduce((sum, value, i) => sum + value * direction[i], 0)));
  const around = Array.from({ length: CORNERS }, (_, i) => {
    const turn = (2 * Math.PI * i) / CORNERS;
    return [Math.cos(turn), Math.sin(turn)] as const;
  });
  return {
    ab: around.map(([u, v]) => {
      const by = reach([0, u, v]);
      return [a + by * u, b + by * v];
    }),
    cl: around.map(([u, v]) => {
      const by = reach([v, u * Math.cos(hue), u * Math.sin(hue)]);
      return [Math.max(0, chroma + by * u), lightness + by * v];
    }),
  };
}
