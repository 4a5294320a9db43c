import { hasOrientation } from "../../belief/unknowns/spray.js";
import type { ForwardModel } from "../../forward/forwardModel.js";
import type { Geometry } from "../../surface/geometry.js";
import { allowedDeltaE00 } from "../../tolerance/tolerance.js";
import type { CheckedJob } from "../job.js";
import type { TargetAngles } from "../targetAngles.js";

/**
 * ΔE00 by which two films of one pot of flake differ, by angle, where the gun repeats to 2 % of the width of the flakes'
 * tilts: medians over 150 pots (seeds 400 to 549) in a world of other physics (test/flakeWorld), of no real gun.
 */
const SPRAY_REPEATS: { readonly [G in Geometry]?: number } = Object.freeze({
  "45as-15": 0.67,
  "45as15": 0.61,
  "45as25": 0.2,
  "45as45": 0.52,
  "45as75": 0.19,
  "45as110": 0.18,
});

/**
 * A job whose targets allow at each angle what their role does and what spraying does there, √(limit² + repeat²), our
 * convention; what a target says of an angle stands. Only for pots of flake whose orientation is known.
 */
export function withFlakeAngles(job: CheckedJob, model: ForwardModel, used: readonly number[]): CheckedJob {
  if (!hasOrientation(model, used)) return job;
  const ofRole = (role: CheckedJob["targets"][number]["role"]): TargetAngles => {
    const limit = allowedDeltaE00(job.tolerance, role, 1);
    const angles = Object.entries(SPRAY_REPEATS);
    return Object.fromEntries(
      angles.map(([angle, repeat]) => [angle, { deltaE00: Math.hypot(limit, repeat) }]),
    );
  };
  const targets = job.targets.map((target) => {
    const angles: Record<string, TargetAngles[Geometry]> = { ...ofRole(target.role) };
    for (const [angle, own] of Object.entries(target.angles ?? {}))
      angles[angle] = { ...angles[angle], ...own };
    return { ...target, angles };
  });
  return { ...job, targets };
}
