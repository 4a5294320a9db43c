import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { correct } from "../../src/correction/correct.js";
import { predict } from "../../src/prediction/predict.js";
import type { Job } from "../../src/problem/job.js";
import type { Grams } from "../../src/toners/pot.js";
import { horseboxToners, type OneCardJob } from "../fixtures/horsebox.js";
import { withoutDoubt } from "../fixtures/noDoubt.js";

const toners = horseboxToners();
const viewing = { observer: "1964-10", illuminants: [{ name: "D65" }, { name: "A", weight: 0.3 }] } as const;

/** A job whose card and target are made by the model: it checks the solver's arithmetic, not its truth. */
function jobFor(pot: Grams, added: Grams, limits: Job["limits"] = {}): OneCardJob {
  const readingsOf = (grams: Grams) =>
    predict({ toners, viewing, pot: grams }).readings.map(({ geometry, grid, reflectance }) => ({
      geometry,
      grid,
      reflectance,
    }));
  const sum = { ...pot };
  for (const [id, grams] of Object.entries(added)) sum[id] = (sum[id] ?? 0) + grams;
  return {
    toners,
    viewing,
    pot,
    card: { readings: readingsOf(pot) },
    targets: [{ name: "panel", readings: readingsOf(sum) }],
    limits,
  };
}

const poolOf = (ids: readonly string[], min: number, max: number) =>
  fc
    .subarray([...ids], { minLength: 1, maxLength: 4 })
    .chain((chosen) =>
      fc
        .array(fc.double({ min, max, noNaN: true }), { minLength: chosen.length, maxLength: chosen.length })
        .map((grams): Grams => Object.fromEntries(chosen.map((id, i) => [id, grams[i]]))),
    );

describe("recovery: a target made by adding to the pot", () => {
  it("gives the added grams back within 0.1 % before rounding, where nothing is in doubt (weak let-downs out of stock: they are the same pigment)", () => {
    // Let-downs are collinear with their full-strength toners, so they and the clear are kept out of reach.
    const stockGrams = { "weak-white": 0, "weak-black": 0, "weak-green": 0, clear: 0 };
    const addable = ["black", "yellow", "ochre", "red-oxide", "green", "blue", "violet"];
    const start = fc.record({
      white: fc.double({ min: 80, max: 200, noNaN: true }),
      ochre: fc.double({ min: 1, max: 20, noNaN: true }),
      green: fc.double({ min: 1, max: 10, noNaN: true }),
    });
    fc.assert(
      fc.property(start, poolOf(addable, 1, 12), (pot, added) => {
        const correction = correct(
          withoutDoubt(jobFor(pot, added, { scaleStepGrams: 0, pourWorthDeltaE00: 0, stockGrams })),
        );
        fc.pre(correction.status !== "good-enough");
        expect(correction.status).toBe("corrected");
        const found = Object.fromEntries(
          correction.additions.map(({ toner, gramsUnrounded }) => [toner, gramsUnrounded]),
        );
        for (const [id, grams] of Object.entries(added)) {
          expect(Math.abs((found[id] ?? 0) - grams)).toBeLessThanOrEqual(1e-3 * grams);
        }
        expect(Object.keys(found).sort()).toEqual(Object.keys(added).sort());
      }),
      { numRuns: 100, seed: 5 },
    );
  }, 300_000);

  it("is never called out of reach when the additions fit scale, stock and cup", () => {
    const pot = { white: 180, ochre: 14, green: 9, "weak-black": 20 };
    const added = poolOf(["white", "weak-black", "yellow", "ochre", "weak-green", "violet"], 0.5, 40);
    fc.assert(
      fc.property(added, (grams) => {
        const { status } = correct(jobFor(pot, grams, { scaleStepGrams: 0.01, potMaxGrams: 400 }));
        expect(["corrected", "good-enough"]).toContain(status);
      }),
      { numRuns: 150, seed: 6 },
    );
  }, 300_000);
});
