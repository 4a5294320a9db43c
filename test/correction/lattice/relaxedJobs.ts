import { correct } from "../../../src/correction/correct.js";
import type { Job } from "../../../src/problem/job.js";
import type { Limits } from "../../../src/problem/limits.js";
import type { ChosenBy } from "../../../src/problem/weighMix.js";

/** What a tie may cost, in ΔE00: see `settleTies`. */
const TIED = 0.01;

/** Limits that allow whatever these allow, and more. */
export const RELAXED: Readonly<Record<string, (limits: Limits) => Limits>> = {
  "one pour more": (limits) => ({ ...limits, maxPours: (limits.maxPours ?? 4) + 1 }),
  "more in stock": (limits) => ({
    ...limits,
    stockGrams: Object.fromEntries(
      Object.entries(limits.stockGrams ?? {}).map(([id, grams]) => [id, 1.7 * grams]),
    ),
  }),
  "a larger cup": (limits) => ({ ...limits, potMaxGrams: 1.4 * (limits.potMaxGrams ?? 0) }),
  "half the scale's step": (limits) => ({
    ...limits,
    scaleStepGrams: (limits.scaleStepGrams ?? 0.1) / 2,
    minPourGrams: Math.max(limits.minPourGrams ?? 0, limits.scaleStepGrams ?? 0.1),
  }),
};

/** What an answer is worth: whether it matches, and the sum it was chosen by, least where nothing had to be poured. */
interface Worth {
  readonly isMatch: boolean;
  readonly sum: number;
  readonly gap: number;
  readonly objective: string;
}

function worthOf(job: Job): Worth {
  const { status, chosenBy, search, objective } = correct(job, {
    alternatives: false,
    wayOut: false,
  });
  const { sum }: Pick<ChosenBy, "sum"> = chosenBy ?? { sum: 0 };
  const gap = search.gapDeltaE00 ?? Number.POSITIVE_INFINITY;
  return { isMatch: status === "corrected" || status === "good-enough", sum, gap, objective };
}

/** By how much more than it says an answer is worse with limits that allow more; none where the answers make another thing small. */
export function lossByRelaxing(job: Job, relax: (limits: Limits) => Limits): number {
  const before = worthOf(job);
  const after = worthOf({ ...job, limits: relax(job.limits ?? {}) });
  if (after.objective !== before.objective) return 0;
  if (before.isMatch && !after.isMatch) return Math.max(0, after.sum - after.gap);
  if (after.isMatch && !before.isMatch) return 0;
  return Math.max(0, after.sum - before.sum - after.gap - TIED);
}
