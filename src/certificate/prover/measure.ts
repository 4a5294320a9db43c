import { ciede2000 } from "../../colorimetry/ciede2000.js";
import type { Lab } from "../../colorimetry/lab.js";
import { sum } from "../../core/sum.js";
import { type Aim, type Goal, labAt } from "../../problem/goal.js";
import type { Measure } from "../records/proof.js";

/** The measure of colours laid out like an evaluation's `lab`. */
export function measured(measure: Measure, { aims }: Goal, lab: ArrayLike<number>): number {
  const parts = aims.map((aim) => ciede2000(aim.lab, labAt(lab, aim.place)) / radius(measure, aim));
  return measure === "weighted" ? Math.hypot(...parts) : Math.max(...parts);
}

/** ΔE00 of an aim at most, where the measure is 1; ∞ for an aim that does not count. */
export function radius(measure: Measure, { weight, allowed }: Aim): number {
  return measure === "weighted" ? 1 / Math.sqrt(weight) : allowed;
}

/** Most of Σ hᵢ·ΔE00ᵢ where the measure is 1: Cauchy–Schwarz, or every aim at its limit. */
export function dualNorm(measure: Measure, terms: readonly number[]): number {
  return measure === "weighted" ? Math.hypot(...terms) : sum(terms);
}

const STEP = 1e-4;

/** ΔE00 and its slope with respect to the sample's L*, a*, b*, by central differences: a direction to look in, no more. */
export function differenceSlope(target: Lab, lab: Lab): { readonly difference: number; readonly n: Lab } {
  const at = (axis: number, by: number) => {
    const moved = lab.map((value, other) => value + (other === axis ? by : 0)) as unknown as Lab;
    return ciede2000(target, moved);
  };
  const along = (axis: number) => (at(axis, STEP) - at(axis, -STEP)) / (2 * STEP);
  return { difference: ciede2000(target, lab), n: [along(0), along(1), along(2)] };
}
