import { map } from "../core/shape/map.js";
import { number } from "../core/shape/number.js";
import { optional } from "../core/shape/optional.js";
import { record } from "../core/shape/record.js";
import { GEOMETRY, type Geometry } from "../surface/geometry.js";

/** What one angle of a target counts for. */
export interface TargetAngle {
  /** Largest ΔE00 that still counts as a match there; when absent that of the role, and of flake with an orientation what spraying does there too. */
  readonly deltaE00?: number;
  /** Share in the compromise between the angles; the inverse square of what is allowed when absent. */
  readonly weight?: number;
}

/** By geometry; what is not named is as any other. */
export type TargetAngles = { readonly [G in Geometry]?: TargetAngle };

export const TARGET_ANGLES = map(
  record<TargetAngle>({
    deltaE00: optional(number({ min: 0, max: 100, aboveMin: true })),
    weight: optional(number({ min: 0, max: 1e6, aboveMin: true })),
  }),
  GEOMETRY,
);

/** Of every geometry of `seen` its weight (they add up to 1) and the factor on what the role of its target allows. */
export function angleShares(
  angles: TargetAngles | undefined,
  seen: readonly Geometry[],
  limit: number,
): readonly { readonly weight: number; readonly factor: number }[] {
  if (angles === undefined) return seen.map(() => ({ weight: 1 / seen.length, factor: 1 }));
  const shares = seen.map((geometry) => {
    const { deltaE00 = limit, weight } = angles[geometry] ?? {};
    const factor = deltaE00 / limit;
    return { factor, weight: weight ?? 1 / factor ** 2 };
  });
  const total = shares.reduce((sum, { weight }) => sum + weight, 0);
  return shares.map(({ factor, weight }) => ({ factor, weight: weight / total }));
}
