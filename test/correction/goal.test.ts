import { describe, expect, it } from "vitest";
import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import {
  colourScore,
  differences,
  type Goal,
  isWithin,
  labAt,
  weightedDifference,
  worstOf,
} from "../../src/problem/goal.js";
import { checkJob, type Job } from "../../src/problem/job.js";
import { prepareProblem } from "../../src/problem/problem.js";
import { evenWeights, worseWeighMore } from "../../src/search/evenWeights.js";
import type { SubsetModel } from "../../src/search/subsetModel.js";
import { horseboxJob } from "../fixtures/horsebox.js";

const example = horseboxJob();
const [target] = example.targets;
const goalOf = (more: Partial<Job>): Goal => prepareProblem(checkJob({ ...example, ...more })).problem.goal;
const two = (roles: readonly ["edge" | "blend", "edge" | "blend"]): Partial<Job> => ({
  targets: [
    { ...target, role: roles[0], weight: 1 },
    { ...target, role: roles[1], weight: 3, name: "other" },
  ],
  viewing: { observer: "1964-10", illuminants: [{ name: "D65" }, { name: "A", weight: 0.25 }] },
  tolerance: { edgeDeltaE00: 0.5, blendDeltaE00: 1 },
});

describe("the aims of a job", () => {
  it("weigh what target and light weigh, 1 together", () => {
    const { aims, spectra } = goalOf(two(["edge", "blend"]));
    expect(aims.map(({ target: t, light }) => [t, light])).toEqual([
      [0, 0],
      [0, 1],
      [1, 0],
      [1, 1],
    ]);
    const all = (1 + 3) * (1 + 0.25);
    expect(aims.map(({ weight }) => weight)).toEqual(
      [1, 0.25, 3, 0.75].map((weight) => expect.closeTo(weight / all, 12)),
    );
    expect(spectra.map(({ weight }) => weight)).toEqual([0.25, 0.75]);
    expect(aims.map(({ place }) => place)).toEqual([0, 3, 0, 3]);
  });

  it("allow what the role does under the heaviest light, and more under a light of less weight", () => {
    const { aims } = goalOf(two(["edge", "blend"]));
    expect(aims.map(({ allowed }) => allowed)).toEqual([0.5, 1, 1, 2]);
    expect(aims.map(({ allowedAsBlend }) => allowedAsBlend)).toEqual([1, 2, 1, 2]);
    expect(aims.map(({ isEdge }) => isEdge)).toEqual([true, true, false, false]);
    // Where all are blends, all count.
    expect(goalOf(two(["blend", "blend"])).aims.every(({ isEdge }) => isEdge)).toBe(true);
  });

  it("are missed by CIEDE2000", () => {
    const goal = goalOf(two(["edge", "blend"]));
    const random = createRandom(5);
    const lab = Float64Array.from({ length: 6 }, (_, i) => [60, 5, 10][i % 3] + random.normal());
    const by = goal.aims.map((aim) => ciede2000(aim.lab, labAt(lab, aim.place)));
    expect(differences(goal, lab)).toEqual(by);
    const squares = by.reduce((sum, d, i) => sum + goal.aims[i].weight * d * d, 0);
    expect(weightedDifference(goal, lab)).toBeCloseTo(Math.sqrt(squares), 12);
    expect(colourScore(goal, lab)).toBe(weightedDifference(goal, lab));
    expect(colourScore({ ...goal, objective: "minimax" }, lab)).toBe(worstOf(goal, by));
    const share = Math.max(...by.map((d, i) => d / goal.aims[i].allowed));
    const allowing = (factor: number): Goal => ({
      ...goal,
      aims: goal.aims.map((aim) => ({ ...aim, allowed: aim.allowed * share * factor })),
    });
    expect(isWithin(allowing(1 + 1e-9), lab)).toBe(true);
    expect(isWithin(allowing(1 - 1e-9), lab)).toBe(false);
  });

  it("are as bad as the worst edge, and as a blend that is beyond what it is allowed", () => {
    const goal = goalOf(two(["edge", "blend"]));
    // Allowed are 0.5, 1, 1, 2: in the strictest's terms an edge under the lesser light counts half.
    expect(worstOf(goal, [0.3, 0.2, 0, 0])).toBe(0.3);
    expect(worstOf(goal, [0.3, 0.8, 0, 0])).toBe(0.4);
    expect(worstOf(goal, [0.3, 0, 0.9, 1.9])).toBe(0.3);
    expect(worstOf(goal, [0.3, 0, 1, 2])).toBe(0.3);
    expect(worstOf(goal, [0.3, 0, 1.4, 0])).toBe(0.7);
    expect(worstOf(goal, [0, 0, 0, 4])).toBe(1);
  });
});

describe("weights that bound the worst from below", () => {
  const goal: Goal = { ...goalOf(two(["edge", "blend"])), objective: "minimax" };
  const missed = (d: readonly number[]) => ({ differences: Float64Array.from(d) }) as unknown as SubsetModel;
  const squares = (weights: ArrayLike<number>, d: readonly number[]) =>
    d.reduce((sum, value, i) => sum + weights[i] * value * value, 0);

  it("leave blends out while the best known is within what they are allowed", () => {
    const strict = evenWeights(goal, 0.49);
    expect(strict[2] + strict[3]).toBe(0);
    expect(strict[0]).toBeCloseTo(0.5, 12);
    expect(strict[1]).toBeCloseTo(0.5 * 0.25, 12);
    const loose = evenWeights(goal, 0.5);
    expect(Array.from(loose)).toEqual([0.25, 0.0625, 0.0625, 0.015625]);
  });

  it("give no more than the square of the worst, with any differences", () => {
    const random = createRandom(8);
    for (let i = 0; i < 300; i++) {
      const d = goal.aims.map(({ allowed }) => 3 * allowed * (0.4 + random.uniform()));
      const first = evenWeights(goal, 10);
      const next = worseWeighMore(goal, first, missed(d), 10);
      const worst = worstOf(goal, d);
      for (const weights of [first, next])
        expect(Math.sqrt(squares(weights, d))).toBeLessThanOrEqual(worst * (1 + 1e-12));
      // The worse weigh more, so the bound at these differences does not fall.
      expect(squares(next, d)).toBeGreaterThanOrEqual(squares(first, d) * (1 - 1e-12));
    }
  });

  it("grow with the difference, counted in what is allowed", () => {
    // Twice as bad in what is allowed: twice the share.
    const d = [1, 1, 1, 1].map((share, i) => (i === 0 ? 2 : share) * goal.aims[i].allowed);
    const next = worseWeighMore(goal, evenWeights(goal, 10), missed(d), 10);
    const shares = goal.aims.map(({ allowed }, i) => next[i] * (allowed / 0.5) ** 2);
    expect(shares).toEqual([0.4, 0.2, 0.2, 0.2].map((share) => expect.closeTo(share, 12)));
    const strict = worseWeighMore(goal, evenWeights(goal, 0.1), missed(d), 0.1);
    expect(strict[2] + strict[3]).toBe(0);
    expect(Array.from(worseWeighMore(goal, evenWeights(goal, 10), missed([0, 0, 0, 0]), 10))).toEqual([
      0, 0, 0, 0,
    ]);
  });
});
