import { sum } from "../../core/sum.js";
import { stepsWithin } from "../../numeric/scalar/stepsWithin.js";
import { withoutTail } from "../../numeric/scalar/withoutTail.js";
import type { RecipeDraw } from "./drawRecipes.js";
import { massToReach } from "./massToReach.js";

/** What a first pot is to serve. */
export interface FirstPotTask {
  readonly draws: readonly RecipeDraw[];
  /** Panels that must stay within reach, as indices into the recipes. */
  readonly panels: readonly number[];
  /** The full formula at the size of this pot: more than this of a toner is never poured. */
  readonly full: Float64Array;
  /** Most that the pot may come to hold. */
  readonly mostGrams: number;
  readonly probability: number;
  /** The scale's step; 0 leaves the grams unrounded. */
  readonly step: number;
}

/** The share of the drawn worlds in which every panel can be reached from the pot by adding alone. */
export function reachProbability(
  pot: Float64Array,
  { draws, panels, mostGrams }: Pick<FirstPotTask, "draws" | "panels" | "mostGrams">,
): number {
  const slack = 1 + 1e-9;
  const reached = draws.filter(({ recipes }) =>
    panels.every((p) => massToReach(pot, recipes[p]) <= mostGrams * slack),
  );
  return reached.length / draws.length;
}

/**
 * The pot in the proportions of the middle world, as large as the promise lets it be. A pot b becomes recipe t within
 * mostGrams by adding alone iff bⱼ ≤ cⱼ = mostGrams·tⱼ/Σt for every toner, c being the least over the panels. With m
 * the median of c over the worlds, b = s·m: a world allows s ≤ minⱼ cⱼ/mⱼ, and s is what the wanted share of worlds
 * allows, with two standard errors of that share to spare; but of no toner more than the full formula has. So what is
 * uncertain costs size, not colour: the first card comes as near to the panels as can be foretold. Rounded down to
 * the scale.
 */
export function firstPot(task: FirstPotTask): Float64Array {
  const { draws, panels, full, mostGrams, probability, step } = task;
  const allowed = draws.map(({ recipes }) => {
    const scales = panels.map((p) => mostGrams / sum(recipes[p]));
    return full.map((_, j) => Math.min(...panels.map((p, i) => scales[i] * recipes[p][j])));
  });
  const middle = full.map((grams, j) =>
    grams > 0
      ? reachedBy(
          allowed.map((most) => most[j]),
          0.5,
        )
      : 0,
  );
  const poured = [...middle.keys()].filter((j) => middle[j] > 0);
  const leastRatio = (most: Float64Array) => Math.min(...poured.map((j) => most[j] / middle[j]));
  const wanted = probability + 2 * Math.sqrt((probability * (1 - probability)) / draws.length);
  const scale = Math.min(reachedBy(allowed.map(leastRatio), wanted), leastRatio(full));
  return middle.map((grams) => (grams > 0 ? stepBelow(scale * grams, step) : 0));
}

/** The largest of the values that at least `share` of them reach or exceed; the least where all are asked for. */
function reachedBy(values: readonly number[], share: number): number {
  const sorted = Float64Array.from(values).sort();
  const below = Math.floor((1 - Math.min(1, share)) * sorted.length + 1e-9);
  return sorted[Math.min(below, sorted.length - 1)];
}

/** Whole steps without the tail that binary fractions leave. */
export function nearestStep(grams: number, step: number): number {
  return step === 0 ? grams : withoutTail(Math.round(grams / step) * step);
}

function stepBelow(grams: number, step: number): number {
  return step === 0 ? grams : withoutTail(stepsWithin(grams, step) * step);
}
