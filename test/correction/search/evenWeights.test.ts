import { describe, expect, it } from "vitest";
import type { Aim, Goal } from "../../../src/problem/goal.js";
import { leastCounted, worstAt } from "../../../src/search/evenWeights.js";
import type { SubsetModel } from "../../../src/search/subsetModel.js";

/** An edge that may be off by 0.5 and a blend that may be off by 1: all that weights of a minimax look at. */
const goal = {
  objective: "minimax",
  aims: [
    { isEdge: true, allowed: 0.5 },
    { isEdge: false, allowed: 1 },
  ] as unknown as readonly Aim[],
  spectra: [],
} satisfies Goal;
const worst = (...differences: readonly number[]) => worstAt(goal, { differences } as unknown as SubsetModel);

describe("the worst difference of a model", () => {
  it("counts edges whole, blends beyond their allowance in proportion to it", () => {
    expect(worst(0.3, 0.9)).toBe(0.3);
    expect(worst(0.3, 1)).toBe(0.3);
    expect(worst(0.3, 1.5)).toBe(0.75);
    expect(worst(2, 1.5)).toBe(2);
  });
});

describe("the score below which a bound says nothing", () => {
  it("is the strictest allowance where a blend counts, and nothing where edges alone do", () => {
    expect(leastCounted(goal, [0.5, 0.5])).toBe(0.5);
    expect(leastCounted(goal, [0, 1])).toBe(0.5);
    expect(leastCounted(goal, [1, 0])).toBe(0);
  });
});
