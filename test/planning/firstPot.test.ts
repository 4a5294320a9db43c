import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { firstPot, reachProbability } from "../../src/planning/holdBack/firstPot.js";
import { massToReach } from "../../src/planning/holdBack/massToReach.js";

const grams = (size: number) =>
  fc
    .array(fc.double({ min: 0.5, max: 100, noNaN: true }), { minLength: size, maxLength: size })
    .map((list) => Float64Array.from(list));

const tasks = fc.integer({ min: 2, max: 5 }).chain((toners) =>
  fc.record({
    full: grams(toners),
    draws: fc.array(
      fc.record({ strengths: grams(toners), recipes: fc.tuple(grams(toners), grams(toners)) }),
      { minLength: 50, maxLength: 80 },
    ),
    step: fc.constantFrom(0, 0.1, 0.5),
  }),
);

const sum = (values: Float64Array) => values.reduce((total, value) => total + value, 0);

describe("massToReach", () => {
  it("is the least mass at which nothing has to be taken out, found by trying masses", () => {
    fc.assert(
      fc.property(grams(4), grams(4), (pot, recipe) => {
        const mass = massToReach(pot, recipe);
        const fits = (total: number) => pot.every((b, j) => b <= (recipe[j] * total) / sum(recipe) + 1e-9);
        expect(fits(mass * (1 + 1e-9))).toBe(true);
        expect(fits(mass * 0.999)).toBe(false);
      }),
      { numRuns: 200, seed: 43 },
    );
  });
});

describe("firstPot", () => {
  it("keeps the wanted share of worlds within reach, in whole steps, with no more than the full formula", () => {
    fc.assert(
      fc.property(tasks, ({ full, draws, step }) => {
        const task = {
          draws,
          panels: [0, 1],
          full,
          mostGrams: 1.1 * sum(full),
          probability: 0.9,
          step,
        };
        const pot = firstPot(task);
        expect(reachProbability(pot, task)).toBeGreaterThanOrEqual(0.9);
        pot.forEach((amount, j) => {
          expect(amount).toBeLessThanOrEqual(full[j] + 1e-9);
          if (step > 0) expect(amount / step).toBeCloseTo(Math.round(amount / step), 6);
        });
      }),
      { numRuns: 100, seed: 44 },
    );
  });

  it("pours the full formula where every world has it, and less the surer it must be", () => {
    const full = Float64Array.of(90, 10);
    const same = Array.from({ length: 100 }, () => ({ strengths: full, recipes: [full] }));
    const base = {
      panels: [0],
      full,
      mostGrams: 100,
      step: 0.1,
    };
    expect([...firstPot({ ...base, draws: same, probability: 0.95 })]).toEqual([90, 10]);
    const spread = Array.from({ length: 400 }, (_, i) => ({
      strengths: full,
      recipes: [Float64Array.of(90, 5 + i / 100)],
    }));
    const pots = [0.6, 0.8, 0.95].map((probability) => firstPot({ ...base, draws: spread, probability }));
    expect(pots[0][1]).toBeGreaterThan(pots[1][1]);
    expect(pots[1][1]).toBeGreaterThan(pots[2][1]);
    expect(pots[2][1]).toBeGreaterThan(5);
  });

  it("has the proportions of the middle world and is as large as the promise lets it be", () => {
    const full = Float64Array.of(80, 15, 5);
    const recipe = Float64Array.of(80, 12, 3);
    const draws = Array.from({ length: 401 }, (_, i) => ({
      strengths: full,
      recipes: [recipe.map((grams, j) => grams * Math.exp(((i - 200) / 400) * (j - 1)))],
    }));
    const task = { draws, panels: [0], full, mostGrams: 110, probability: 0.9, step: 0 };
    const pot = firstPot(task);
    const [first, second, third] = recipe.map((grams, j) => pot[j] / grams);
    expect(second / first).toBeCloseTo(1, 2);
    expect(third / first).toBeCloseTo(1, 2);
    const larger = pot.map((grams) => 1.01 * grams);
    expect(reachProbability(pot, task)).toBeGreaterThanOrEqual(0.9 + 2 * Math.sqrt(0.09 / draws.length));
    expect(reachProbability(larger, task)).toBeLessThan(0.9 + 2 * Math.sqrt(0.09 / draws.length));
  });

  it("goes by the panel that allows least of each toner", () => {
    const full = Float64Array.of(80, 10, 10);
    const recipes = [Float64Array.of(80, 5, 10), Float64Array.of(80, 10, 6)];
    const draws = Array.from({ length: 50 }, () => ({ strengths: full, recipes }));
    const pot = firstPot({ draws, panels: [0, 1], full, mostGrams: 96, probability: 0.9, step: 0 });
    const allowed = [80, (96 * 5) / 95, 6].map((grams) => grams / 80);
    pot.forEach((grams, j) => {
      expect(grams / pot[0]).toBeCloseTo(allowed[j], 9);
    });
  });
});
