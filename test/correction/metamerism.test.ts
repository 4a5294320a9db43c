import { describe, expect, it } from "vitest";
import { correct } from "../../src/correction/correct.js";
import { horseboxJob } from "../fixtures/horsebox.js";

const job = horseboxJob();

describe("metamerism of a correction", () => {
  it("is nothing against a target with the card's own reflectance", () => {
    const { metamerism } = correct({
      ...job,
      targets: [{ name: "card again", readings: job.card.readings }],
    });
    expect(metamerism.length).toBe(job.viewing.illuminants.length - 1);
    for (const { additive, multiplicative } of metamerism) {
      expect(additive).toBeCloseTo(0, 9);
      expect(multiplicative).toBeCloseTo(0, 9);
    }
  });

  it("goes from the heaviest light to each of the others, for every target", () => {
    const { metamerism, predictions } = correct(job);
    const lights = new Set(predictions.map(({ illuminant }) => illuminant));
    expect(metamerism.length).toBe(job.targets.length * (lights.size - 1));
    for (const { reference, test, additive } of metamerism) {
      expect(reference).toBe("D65");
      expect(test).not.toBe(reference);
      expect(additive).toBeGreaterThan(0);
    }
  });

  it("takes out the difference under the reference light: by hand from the predicted colours", () => {
    const { metamerism, predictions } = correct(job);
    const { target, reference, test, additive } = metamerism[0];
    const under = (light: string) => predictions.find((p) => p.target === target && p.illuminant === light);
    const miss = (light: string, axis: number) =>
      (under(light)?.labAfter[axis] ?? Number.NaN) - (under(light)?.labTarget[axis] ?? Number.NaN);
    const byHand = Math.hypot(...[0, 1, 2].map((axis) => miss(test, axis) - miss(reference, axis)));
    expect(additive).toBeCloseTo(byHand, 12);
  });
});
