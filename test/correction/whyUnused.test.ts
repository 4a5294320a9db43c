import { describe, expect, it } from "vitest";
import { correct } from "../../src/correction/correct.js";
import { checkJob, type Job } from "../../src/problem/job.js";
import { prepareProblem } from "../../src/problem/problem.js";
import { findMix } from "../../src/search/findMix.js";
import { trueRisk } from "../../src/search/trueRisk.js";
import { horseboxJob } from "../fixtures/horsebox.js";

const example = horseboxJob();
const LEAN = { alternatives: false, wayOut: false } as const;

/** The score that these toners and no others leave, as many pours as they are, nothing rounded. */
const leftWith = (job: Job, toners: readonly string[]): number => {
  const stockGrams = Object.fromEntries(
    job.toners.toners.map(({ id }) => [id, toners.includes(id) ? (job.limits?.stockGrams?.[id] ?? 1e4) : 0]),
  );
  const limits = { ...job.limits, stockGrams, scaleStepGrams: 0, maxPours: 12, pourWorthDeltaE00: 0 };
  const { picked } = findMix(trueRisk(prepareProblem(checkJob({ ...job, limits }))));
  return picked?.score ?? Number.NaN;
};

const jobs: Readonly<Record<string, Job>> = {
  "the shipped example": example,
  "one pour allowed": { ...example, limits: { maxPours: 1 } },
  "one panel, two pours allowed": {
    ...example,
    targets: example.targets.slice(0, 1),
    limits: { maxPours: 2 },
  },
};

/** Each is refined by itself, the answer's grams were rounded. */
const NEAR = 0.02;

describe.each(Object.entries(jobs))("why a toner is not poured: %s", (_, job) => {
  const { additions, unused } = correct(job);
  const used = additions.map(({ toner }) => toner);
  const now = leftWith(job, used);

  it.each(unused.filter(({ gainDeltaE00 }) => gainDeltaE00 !== undefined))(
    "$toner: $reason takes off what is said",
    ({ toner, gainDeltaE00 }) => {
      expect(Math.abs(now - leftWith(job, [...used, toner]) - (gainDeltaE00 ?? Number.NaN))).toBeLessThan(
        NEAR,
      );
    },
  );

  it.each(unused.filter(({ reason }) => reason === "wrong-way" || reason === "no-effect"))(
    "$toner: $reason takes nothing off",
    ({ toner }) => {
      expect(now - leftWith(job, [...used, toner])).toBeLessThan(NEAR);
    },
  );
});

describe("what a finer scale would bring", () => {
  it.each([
    ["a scale of 0.3 g", 0.3],
    ["a scale of 0.7 g", 0.7],
    ["a scale of 2 g", 2],
  ])("is what the same toners reach on it, from %s", (_, scaleStepGrams) => {
    const job = { ...example, limits: { scaleStepGrams, maxPours: 3, pourWorthDeltaE00: 0 } };
    const { additions, finerScale, weightedDeltaE00 } = correct(job);
    const used = additions.map(({ toner }) => toner);
    const stockGrams = Object.fromEntries(
      job.toners.toners.map(({ id }) => [id, used.includes(id) ? 1e4 : 0]),
    );
    const finer = correct(
      { ...job, limits: { ...job.limits, stockGrams, scaleStepGrams: scaleStepGrams / 10 } },
      LEAN,
    );
    expect(finerScale?.stepGrams).toBeCloseTo(scaleStepGrams / 10, 12);
    expect(finerScale?.weightedDeltaE00).toBeCloseTo(finer.weightedDeltaE00.after, 6);
    expect(finerScale?.weightedDeltaE00).toBeLessThanOrEqual(weightedDeltaE00.after);
  });
});
