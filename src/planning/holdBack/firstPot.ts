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
  /** Grams of each toner not to go below. */
  readonly atLeast: Float64Array;
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
 * The most of each toner that can be poured now. A pot b becomes recipe t within mostGrams by adding alone iff
 * bⱼ ≤ mostGrams·tⱼ/Σt for every toner; b takes one and the same low quantile of that limit (the least over the
 * panels) for all toners, the highest quantile at which all panels stay reachable at once in the wanted share of the
 * worlds, with two standard errors of that share to spare. Rounded down to the scale; of a toner that is not kept back at all, to the nearest step.
 */
export function firstPot(task: FirstPotTask): Float64Array {
  const { draws, panels, full, mostGrams, probability, atLeast, step } = task;
  const sorted = Array.from(full, (_, j) =>
    Float64Array.from(draws, ({ recipes }) =>
      Math.min(...panels.map((p) => (mostGrams * recipes[p][j]) / sum(recipes[p]))),
    ).sort(),
  );
  const potAt = (rank: number) =>
    full.map((most, j) => {
      const grams = Math.max(atLeast[j], sorted[j][rank]);
      return grams >= most ? nearestStep(most, step) : stepBelow(grams, step);
    });
  const wanted = probability + 2 * Math.sqrt((probability * (1 - probability)) / draws.length);
  const isEnough = (rank: number) => reachProbability(potAt(rank), task) >= Math.min(1, wanted);
  let low = 0;
  let high = draws.length - 1;
  if (isEnough(high)) return potAt(high);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (isEnough(middle)) low = middle;
    else high = middle;
  }
  return potAt(low);
}

/** Whole steps without the tail that binary fractions leave. */
export function nearestStep(grams: number, step: number): number {
  return step === 0 ? grams : Number((Math.round(grams / step) * step).toPrecision(12));
}

function stepBelow(grams: number, step: number): number {
  return step === 0 ? grams : Number((Math.floor(grams / step + 1e-9) * step).toPrecision(12));
}

const sum = (values: Float64Array): number => values.reduce((total, value) => total + value, 0);
