import { sum } from "../core/sum.js";
import type { Bench } from "./bench.js";
import { poured } from "./poured.js";

/**
 * Why these additions: of all that match, or of all found where none does, they have the least `sum`. All in ΔE00. `paint`
 * is thrift: see `paintWorthDeltaE00` of the limits.
 */
export interface ChosenBy {
  /** What is left of colour, by the objective, with a hair of the spectrum. */
  readonly score: number;
  /** What a pour is worth, for every pour. */
  readonly pours: number;
  /** What paint is worth, for what goes beyond half as much as the pot holds. */
  readonly paint: number;
  readonly sum: number;
}

/** So much paint, as a share of the pot, weighs nothing (design value): colour comes first while a pot stays the pot. */
export const FREE_SHARE = 0.5;

/**
 * What mixes are chosen by: how far off (`score`, with paint for nothing), what their pours are worth, and thrift: what
 * their paint beyond half as much as the pot holds is worth. The one of least sum is the answer.
 */
export function weighMix(
  { pot, pourWorth, paintWorth }: Bench,
  { additions, score }: { readonly additions: ArrayLike<number>; readonly score: number },
): ChosenBy {
  const pours = pourWorth * poured(additions).length;
  const paint = paintWorth * Math.max(0, sum(additions) / sum(pot) - FREE_SHARE);
  return { score, pours, paint, sum: score + pours + paint };
}
