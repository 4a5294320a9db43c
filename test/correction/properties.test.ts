import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { correct } from "../../src/correction/correct.js";
import type { Correction } from "../../src/correction/correction.js";
import type { Job } from "../../src/problem/job.js";
import { horseboxJob, type OneCardJob } from "../fixtures/horsebox.js";

const job = horseboxJob();
const shifted = (reading: OneCardJob["card"]["readings"][number], factor: number) => ({
  ...reading,
  reflectance: Array.from(reading.reflectance, (r) => r * factor),
});

/** The example with other limits and with panels lighter or darker than they are. */
const jobs: fc.Arbitrary<Job> = fc
  .record({
    factor: fc.double({ min: 0.5, max: 1.3, noNaN: true }),
    potMaxGrams: fc.double({ min: 200, max: 600, noNaN: true }),
    scaleStepGrams: fc.constantFrom(0, 0.01, 0.1, 0.5, 1),
    maxPours: fc.integer({ min: 1, max: 6 }),
    stock: fc.double({ min: 0, max: 30, noNaN: true }),
  })
  .map(({ factor, potMaxGrams, scaleStepGrams, maxPours, stock }) => ({
    ...job,
    targets: job.targets.map((target) => ({
      ...target,
      readings: target.readings.map((reading) => shifted(reading, factor)),
    })),
    limits: {
      potMaxGrams,
      scaleStepGrams,
      maxPours,
      stockGrams: { yellow: stock, "weak-black": stock, violet: 0 },
    },
  }));

const total = (grams: Readonly<Record<string, number>>) =>
  Object.values(grams).reduce((sum, g) => sum + g, 0);

describe("any correction", () => {
  it("adds only what stock, cup, scale and number of pours allow, and the pot afterwards adds up", () => {
    fc.assert(
      fc.property(jobs, (one) => {
        const { additions, potAfter, potGramsAfter } = correct(one);
        const { potMaxGrams = 0, scaleStepGrams = 0, maxPours = 0, stockGrams = {} } = one.limits ?? {};
        expect(additions.length).toBeLessThanOrEqual(maxPours);
        for (const { toner, grams } of additions) {
          expect(grams).toBeGreaterThan(0);
          expect(grams).toBeLessThanOrEqual((stockGrams[toner] ?? Number.POSITIVE_INFINITY) + 1e-9);
          if (scaleStepGrams > 0) {
            expect(Math.abs(grams / scaleStepGrams - Math.round(grams / scaleStepGrams))).toBeLessThan(1e-6);
          }
          expect(potAfter[toner]).toBeCloseTo((one.pot[toner] ?? 0) + grams, 9);
        }
        const poured = additions.reduce((sum, { grams }) => sum + grams, 0);
        expect(potGramsAfter).toBeCloseTo(total(one.pot) + poured, 9);
        if (poured > 0) expect(potGramsAfter).toBeLessThanOrEqual(potMaxGrams + 1e-6);
      }),
      { numRuns: 120, seed: 7 },
    );
  }, 300_000);

  it("has the same record whatever its status, and its status follows from its predictions", () => {
    const keys = new Set<string>();
    const seen = new Set<string>();
    fc.assert(
      fc.property(jobs, (one) => {
        const correction = correct(one);
        keys.add(Object.keys(correction).sort().join());
        seen.add(correction.status);
        const matched = correction.predictions.every((p) => p.deltaE00After <= p.deltaE00Allowed);
        const already = correction.predictions.every((p) => p.deltaE00Before <= p.deltaE00Allowed);
        expect(matched).toBe(correction.status === "corrected" || correction.status === "good-enough");
        expect(already).toBe(correction.status === "good-enough");
        expect(correction.weightedDeltaE00.after).toBeLessThanOrEqual(correction.weightedDeltaE00.before);
        expect(correction.obstacles.length > 0).toBe(correction.status === "out-of-reach");
      }),
      { numRuns: 120, seed: 8 },
    );
    expect(keys.size).toBe(1);
    expect(seen).toContain("corrected");
    expect(seen).toContain("out-of-reach");
  }, 300_000);

  it("does not depend on the order of the toners", () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([...job.toners.toners], { minLength: 12, maxLength: 12 }), (toners) => {
        const other = correct({ ...job, toners: { ...job.toners, toners } });
        expect(byToner(other)).toEqual(byToner(correct(job)));
      }),
      { numRuns: 20, seed: 9 },
    );
  }, 300_000);

  it("grows with the pot: twice the pot takes twice the grams", () => {
    const twice = Object.fromEntries(Object.entries(job.pot).map(([id, grams]) => [id, 2 * grams]));
    const free = { ...job, limits: { maxPours: 12, scaleStepGrams: 0 } };
    const once = byToner(correct(free));
    const doubled = byToner(correct({ ...free, pot: twice }));
    expect(Object.keys(doubled)).toEqual(Object.keys(once));
    for (const [id, grams] of Object.entries(once)) expect(doubled[id]).toBeCloseTo(2 * grams, 2);
  }, 300_000);
});

function byToner({ additions }: Correction): Record<string, number> {
  return Object.fromEntries(
    additions.map(({ toner, grams }) => [toner, grams] as const).sort(([a], [b]) => a.localeCompare(b)),
  );
}
