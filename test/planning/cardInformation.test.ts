import { describe, expect, it } from "vitest";
import { createRandom } from "../../src/numeric/probability/random.js";
import { cardInformation } from "../../src/planning/holdBack/cardInformation.js";
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

describe("cardInformation", () => {
  const told = cardInformation(prior, grams);

  it("tells of toners in the pot and not of others, and no less of a small pot than of a large one", () => {
    const small = cardInformation(prior, scaled(0.2));
    ids.forEach((_, j) => {
      if (grams[j] === 0) expect(told.sd[j]).toBeCloseTo(told.sdBefore[j], 2);
      else expect(told.sd[j]).toBeLessThanOrEqual(told.sdBefore[j]);
      // But for the hand, which errs by grams.
      expect(small.sd[j]).toBeCloseTo(told.sd[j], 3);
    });
    expect(told.sd[place("green")]).toBeLessThan(0.8 * told.sdBefore[place("green")]);
  });

  it("tells more of a toner the more of it there is", () => {
    const more = cardInformation(prior, withMore("green", 2));
    expect(more.sd[place("green")]).toBeLessThan(told.sd[place("green")]);
  });

  it("holds the toner that makes the pot for certain against the pot, and a clear one altogether", () => {
    expect(told.sd[place("white")]).toBeLessThan(0.01);
    expect(told.sd[place("clear")]).toBe(0);
  });

  it("draws errors with the sd it states", () => {
    const random = createRandom(3);
    const drawn = Array.from({ length: 4000 }, () => told.error(random)[place("green")]);
    const square = drawn.reduce((sum, value) => sum + value * value, 0) / drawn.length;
    expect(Math.sqrt(square) / told.sd[place("green")]).toBeCloseTo(1, 1);
  });
});
