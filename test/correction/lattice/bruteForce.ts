import { correct } from "../../../src/correction/correct.js";
import type { Job } from "../../../src/correction/job.js";
import type { Grams } from "../../../src/toners/pot.js";
import { scoreOf, tryAll } from "./exhaustive.js";

/** Two scores count as equal when they are no more than this apart, in ΔE00. */
export const EQUAL = 1e-9;

/** One number of pours of one job: what the solver answers, and the best of all mixes. */
export interface Comparison {
  readonly pours: number;
  readonly ours: number;
  readonly best: number;
  readonly additions: Grams;
  readonly bestAdditions: Grams;
}

/** The best of at most 1, 2 … pours in the answer of `correct` beside the best of all mixes tried one by one. */
export function compare(job: Job): readonly Comparison[] {
  const { byPours, objective } = correct(job, { alternatives: false });
  // The answer says what it made small: the worst, too, where the squares alone leave a target out of tolerance.
  const score = scoreOf({ ...job, objective });
  const all = tryAll({ ...job, objective });
  return all.slice(1).map(({ pours, score: best, additions: bestAdditions }) => {
    const mix = byPours.filter((one) => one.pours <= pours).at(-1);
    const additions: Grams = Object.fromEntries(
      (mix?.additions ?? []).map(({ toner, grams }) => [toner, grams]),
    );
    return { pours, ours: score(additions), best, additions, bestAdditions };
  });
}
