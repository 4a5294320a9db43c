import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { characterise } from "../../src/characterisation/characterise.js";
import type { Sample } from "../../src/characterisation/sample.js";
import { GEOMETRY, GRID, jobOf } from "./world.js";

const fraction = fc.oneof(fc.double({ min: 0, max: 1, noNaN: true }), fc.constantFrom(0, 0.04, 1, 1.2));
const spectrum = fc.array(fraction, { minLength: GRID.count, maxLength: GRID.count });
const recipe = fc.dictionary(
  fc.constantFrom("white", "red", "blue"),
  fc.double({ min: 1e-3, max: 100, noNaN: true }),
  {
    minKeys: 1,
  },
);
const reading = fc.record({ reflectance: spectrum, backing: spectrum }, { requiredKeys: ["reflectance"] });
const sample = fc.record(
  {
    recipe,
    readings: fc.array(reading, { minLength: 1, maxLength: 2 }),
    thickness: fc.double({ min: 0.1, max: 500, noNaN: true }),
  },
  { requiredKeys: ["recipe", "readings"] },
);

describe("characterise on random readings", () => {
  it("ends in numbers: K, S > 0 and finite, standard deviations ≥ 0, rank within reach", () => {
    fc.assert(
      fc.property(fc.array(sample, { minLength: 1, maxLength: 6 }), (list) => {
        const samples = list.map(
          (one, i): Sample => ({
            ...one,
            name: `${i}`,
            readings: one.readings.map((r) => ({ ...r, geometry: GEOMETRY, grid: GRID })),
          }),
        );
        const { reference, ...job } = jobOf(samples);
        const found = characterise({
          ...job,
          options: { fitSurface: ["k2"], densitySd: 0.5, weighingSd: { absolute: 0, relative: 0.05 } },
        });
        expect(reference).toBe("white");
        for (const { k, s } of found.toners.toners) {
          for (const value of [...Array.from(k[GEOMETRY] ?? []), ...Array.from(s[GEOMETRY] ?? [])]) {
            expect(value).toBeGreaterThan(0);
            expect(value).toBeLessThan(Number.POSITIVE_INFINITY);
          }
        }
        for (const { sdOfLogK, sdOfLogS } of found.quality) {
          for (const sd of [...sdOfLogK, ...sdOfLogS]) expect(sd).toBeGreaterThanOrEqual(0);
        }
        expect(found.rank).toBeLessThanOrEqual(found.unknowns);
        for (const { readings } of found.samples) {
          for (const { predicted } of readings) expect(predicted.every(Number.isFinite)).toBe(true);
        }
      }),
      { numRuns: 150, seed: 5 },
    );
  }, 60_000);
});
