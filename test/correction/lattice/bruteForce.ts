import { correct } from "../../../src/correction/correct.js";
import type { Job } from "../../../src/problem/job.js";
import type { Grams } from "../../../src/toners/pot.js";
import { scoreOf, tryAll } from "./exhaustive.js";

/** Two scores count as equal when they are no more than this apart, in ΔE00. */
export const EQUAL = 1e-9;

/** What is compared needs neither reasons nor proofs. */
const ADDITIONS_ALONE = { alternatives: false, wayOut: false } as const;

/** One number of pours of one job: what the solver answers, and the best of all mixes. */
export interface Comparison {
  readonly pours: number;
  readonly ours: number;
  readonly best: number;
  readonly additions: Grams;
  readonly bestAdditions: Grams;
  /** What the answer says that it may lack, in ΔE00; Infinity where it cannot say. */
  readonly gap: number;
}

/**
 * The best of at most 1, 2 … pours in the answer of `correct` beside the best of all mixes tried one by one. Empty where the
 * card is within tolerance already: the answer is then to pour nothing, not the best mix.
 */
export function compare(job: Job): readonly Comparison[] {
  const { status, byPours, objective, search } = correct(job, ADDITIONS_ALONE);
  if (status === "good-enough") return [];
  const gap = search.gapDeltaE00 ?? Number.POSITIVE_INFINITY;
  // The answer says what it made small: the worst, too, where the squares alone leave a target out of tolerance, and with
  // which share of the risk.
  const score = scoreOf({ ...job, objective }, search.riskShare);
  const all = tryAll({ ...job, objective }, search.riskShare);
  return all.slice(1).map(({ pours, score: best, additions: bestAdditions }) => {
    const mix = byPours.filter((one) => one.pours <= pours).at(-1);
    const additions: Grams = Object.fromEntries(
      (mix?.additions ?? []).map(({ toner, grams }) => [toner, grams]),
    );
    return { pours, ours: score(additions), best, additions, bestAdditions, gap };
  });
}
