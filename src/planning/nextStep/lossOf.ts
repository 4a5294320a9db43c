import { ciede2000 } from "../../colorimetry/ciede2000.js";
import { sum } from "../../core/sum.js";
import { type Goal, labAt, labOfAim } from "../../problem/goal.js";
import type { CheckedJob } from "../../problem/job.js";
import type { StepPrices } from "../../problem/stepPrices.js";

/** What it costs to leave a colour (laid out like an evaluation's `lab`) as it is. */
export interface LossOf {
  /** Painted up to the edges. */
  left(lab: Float64Array): number;
  /** With all edges blended, the blending included. */
  blended(lab: Float64Array): number;
  /** Whichever is less. */
  least(lab: Float64Array): number;
}

/**
 * Loss of a mismatch: redo × (how likely it is seen). Within tolerance never, at twice the tolerance always, between
 * them in proportion, by the worst target, light and geometry: r = max ΔE00/allowed, loss = redo·min(1, max(0, r − 1)).
 */
export function lossOf(
  goal: Goal,
  { targets, tolerance }: Pick<CheckedJob, "targets" | "tolerance">,
  prices: StepPrices,
): LossOf {
  const wider = tolerance.blendDeltaE00 / tolerance.edgeDeltaE00;
  const mismatch = (lab: Float64Array, isBlended: boolean) => {
    let worst = 0;
    for (const aim of goal.aims) {
      const { place, allowed, target: t } = aim;
      const most = isBlended && targets[t].role === "edge" ? Math.max(1, wider) * allowed : allowed;
      worst = Math.max(worst, ciede2000(labOfAim(aim, lab), labAt(lab, place)) / most);
    }
    return prices.redo * Math.min(1, Math.max(0, worst - 1));
  };
  const left = (lab: Float64Array) => mismatch(lab, false);
  const blended = (lab: Float64Array) => prices.blend + mismatch(lab, true);
  return { left, blended, least: (lab) => Math.min(left(lab), blended(lab)) };
}

export function mean(values: readonly number[]): number {
  return sum(values) / values.length;
}
