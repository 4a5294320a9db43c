import type { Bench } from "./bench.js";
import type { ChosenBy } from "./correction.js";
import { gramsOf, poured } from "./poured.js";

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
  const paint = paintWorth * Math.max(0, gramsOf(additions) / gramsOf(pot) - FREE_SHARE);
  return { score, pours, paint, sum: score + pours + paint };
}
