import { expect, it } from "vitest";
import { horseboxToners } from "../../fixtures/horsebox.js";
import { compare, EQUAL } from "./bruteForce.js";
import { amountsOf, countMixes } from "./exhaustive.js";
import { randomJob } from "./randomJobs.js";

/** So few mixes are tried in a moment: many kinds of job are looked at, where the larger comparison looks at larger ones. */
const FEW_MIXES = 1200;

const toners = horseboxToners();
const jobs = Array.from({ length: 160 }, (_, seed) => ({ seed, job: randomJob(toners, seed) })).filter(
  ({ job }) => countMixes(amountsOf(job), job.limits?.maxPours ?? 4) < FEW_MIXES,
);

it("there is a small job of every kind", () => {
  const limits = jobs.map(({ job }) => job.limits ?? {});
  expect(jobs.length).toBeGreaterThan(60);
  expect(jobs.some(({ job }) => job.objective === "minimax" && job.targets.length > 1)).toBe(true);
  expect(limits.some(({ gramsPerDrop = {} }) => Object.keys(gramsPerDrop).length > 0)).toBe(true);
  expect(limits.some(({ minPourGrams = 0 }) => minPourGrams > 0)).toBe(true);
  expect(limits.filter(({ maxPours = 0 }) => maxPours > 1).length).toBeGreaterThan(10);
});

it("the best of each number of pours is the best of all mixes, each tried", () => {
  for (const { seed, job } of jobs) {
    for (const { pours, ours, best } of compare(job))
      expect(Math.abs(ours - best), `seed ${seed}, ${pours} pours: ${ours} for ${best}`).toBeLessThanOrEqual(
        EQUAL,
      );
  }
});
