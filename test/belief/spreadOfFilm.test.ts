import { describe, expect, it } from "vitest";
import { beliefOf } from "../../src/belief/belief.js";
import { BELIEF_SIZES, type BeliefSizes } from "../../src/belief/beliefSizes.js";
import { spreadOfFilm } from "../../src/belief/spread.js";
import { gramsInOrder } from "../../src/toners/pot.js";
import { horseboxJob, horseboxToners } from "../fixtures/horsebox.js";
import { priorOf } from "./pots.js";

/* Linear algebra alone: sizes and misfits are standard deviations, so variances go with their squares. */

const set = horseboxToners();
const grams = gramsInOrder(horseboxJob().pot, set.toners);
const nothing = new Float64Array(grams.length);
const none = Object.fromEntries(
  Object.keys(BELIEF_SIZES).map((key) => [key, key === "filmScattering" ? 12 : 0]),
) as Partial<BeliefSizes>;
const spreadWith = (
  sizes: Partial<BeliefSizes>,
  misfits: readonly number[] = [],
  poured: Float64Array = nothing,
) => {
  const toners = set.toners.map(({ strengthSd: _, ...toner }, j) => ({ ...toner, misfit: misfits[j] ?? 1 }));
  return spreadOfFilm(beliefOf(priorOf({ ...set, toners }, { ...none, ...sizes }), []), grams, poured);
};
const expectTimes = (many: Float64Array, factor: number, one: Float64Array) => {
  for (let i = 0; i < one.length; i++) expect(many[i]).toBeCloseTo(factor * one[i], 9);
};

describe("a film before any card was seen", () => {
  it("is what the toners predict, with no spread where every size is 0", () => {
    const { lab, covariance } = spreadWith({});
    expect(lab.every(Number.isFinite)).toBe(true);
    expect(Math.max(...covariance.map(Math.abs))).toBe(0);
  });

  it("has the sum of the variances that the sizes cause one by one", () => {
    const parts: readonly Partial<BeliefSizes>[] = [
      { strengthSd: 0.2 },
      { tonerCurveSd: 0.08 },
      { tonerScatteringSd: 0.1 },
      { paintCurveSd: 0.03 },
      { companySd: 0.2 },
      { k2Sd: 0.05 },
      { k2RiseSd: 0.1 },
      { offsetSd: 0.001 },
      { gainSd: 0.003 },
      { readingSd: 0.001 },
    ];
    const each = parts.map((part) => spreadWith(part).covariance);
    for (const covariance of each) expect(covariance[0]).toBeGreaterThan(0);
    const sum = each.reduce((all, one) => all.map((value, i) => value + one[i]));
    expectTimes(spreadWith(Object.assign({}, ...parts)).covariance, 1, sum);
  });

  it("has a variance that grows with the square of a toner's misfit, only of toners that it holds", () => {
    const sizes = { tonerCurveSd: 0.08, tonerScatteringSd: 0.1 };
    const usual = spreadWith(sizes).covariance;
    const all = set.toners.map(() => 3);
    const others = set.toners.map((_, j) => (grams[j] > 0 ? 1 : 3));
    expectTimes(spreadWith(sizes, all).covariance, 9, usual);
    expectTimes(spreadWith(sizes, others).covariance, 1, usual);
    expect(others).toContain(3);
  });

  it("has the errors of pours only where something was poured", () => {
    const sizes = { pourSd: 0.03, pourShareSd: 0.01 };
    expect(Math.max(...spreadWith(sizes).covariance.map(Math.abs))).toBe(0);
    expect(spreadWith(sizes, [], grams).covariance[0]).toBeGreaterThan(0);
  });
});
