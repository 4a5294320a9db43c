import { describe, expect, it } from "vitest";
import { createWork } from "../../src/core/createWork.js";
import { cardInformation } from "../../src/planning/holdBack/cardInformation.js";
import { expectedCost } from "../../src/planning/holdBack/expectedCost.js";
import { checkPlanJob } from "../../src/planning/holdBack/planJob.js";
import { preparePlan } from "../../src/planning/holdBack/planProblem.js";
import { horseboxPlan } from "./horseboxPlan.js";

const { model, prior, formulas } = preparePlan(checkPlanJob(horseboxPlan()));
const [{ grams }] = formulas;
const ids = model.set.toners.map(({ id }) => id);
const place = (id: string) => ids.indexOf(id);
const scaled = (factor: number) => grams.map((amount) => factor * amount);
const withMore = (id: string, factor: number) =>
  grams.map((amount, j) => (j === place(id) ? factor * amount : amount));

describe("expectedCost", () => {
  const total = grams.reduce((sum, amount) => sum + amount, 0);
  const draws = Array.from({ length: 200 }, () => ({ strengths: grams.map(() => 1), recipes: [grams] }));
  const cost = (pot: Float64Array, sd = 1) => {
    const { error, ...told } = cardInformation(prior, pot);
    const information = {
      ...told,
      error: (random: Parameters<typeof error>[0]) => error(random).map((e) => sd * e),
    };
    const stage = {
      grams: total,
      potGrams: total,
      recipe: () => grams,
      allowanceUsed: ([wanted]: readonly (readonly number[])[], [paint]: readonly (readonly number[])[]) =>
        Math.hypot(...wanted.map((value, axis) => value - paint[axis])) / 0.5,
    };
    const options = {
      draws,
      seed: 1,
      information: [information, information],
      mostGrams: 2 * total,
      work: createWork(Number.POSITIVE_INFINITY),
    } as const;
    return expectedCost(model, pot, [stage], options);
  };

  it("is one card for the right proportions at any size, two where the cans are known", () => {
    expect(cost(scaled(0.5))).toEqual({ cards: 1, wasteGrams: 0 });
    expect(cost(withMore("green", 0.5), 0).cards).toBe(2);
  });

  it("grows with the size of the first correction, since what is poured is off by what is not known of it", () => {
    const [little, much] = [0.9, 0.3].map((factor) => cost(withMore("green", factor)).cards);
    expect(little).toBeGreaterThan(1);
    expect(much).toBeGreaterThan(little + 0.1);
  });

  it("counts as waste what an overshoot makes of the pot", () => {
    const { wasteGrams } = cost(withMore("green", 1.2), 0);
    const mixed = total + 0.2 * grams[place("green")];
    expect(wasteGrams).toBeGreaterThan(0.19 * total);
    expect(wasteGrams).toBeLessThan(0.21 * total + mixed - total);
  });
});
