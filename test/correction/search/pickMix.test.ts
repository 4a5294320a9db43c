import { describe, expect, it } from "vitest";
import { after as seenWith } from "../../../src/correction/after.js";
import { differences } from "../../../src/correction/goal.js";
import type { FoundMix } from "../../../src/correction/search/createSearch.js";
import { pickMix } from "../../../src/correction/search/pickMix.js";
import { smallProblem } from "../../certificate/smallProblems.js";

const { problem } = smallProblem(4);
const worth = (pourWorth: number, allowed: number) => ({
  ...problem,
  goal: { ...problem.goal, aims: problem.goal.aims.map((aim) => ({ ...aim, allowed })) },
  bench: { ...problem.bench, pourWorth },
});
/** Of so many toners with such a score; none pours anything, so that all match alike. */
const mix = (pours: number, score: number): FoundMix => {
  const nothing = new Float64Array(problem.bench.pot.length);
  return {
    toners: Array.from({ length: pours }, (_, j) => j),
    additions: nothing,
    unrounded: nothing,
    score,
  };
};
const ANYTHING = Number.POSITIVE_INFINITY;

describe("the mix worth pouring", () => {
  it("has the fewest pours of which each one saved costs no more than a pour is worth", () => {
    const all = [mix(1, 0.5), mix(2, 0.2), mix(3, 0.12), mix(4, 0.09)];
    for (const allowed of [ANYTHING, 0]) {
      const picked = (pourWorth: number) => pickMix(worth(pourWorth, allowed), all)?.toners.length;
      expect(picked(0)).toBe(4);
      expect(picked(0.029)).toBe(4);
      expect(picked(0.031)).toBe(3);
      // Two pours fewer may cost twice as much.
      expect(picked(0.056)).toBe(2);
      expect(picked(0.14)).toBe(1);
    }
  });

  it("is one that matches, where any does, whatever scores less", () => {
    const poured = Float64Array.from(problem.bench.pot, (_, j) => (j === 0 ? 5 : 0));
    const missed = (additions: Float64Array) =>
      Math.max(...differences(problem.goal, seenWith(problem, additions).lab));
    const mixes = [mix(1, 0.01), { ...mix(2, 0.4), additions: poured }];
    const [near, off] = [...mixes].sort((a, b) => missed(a.additions) - missed(b.additions));
    const between = (missed(near.additions) + missed(off.additions)) / 2;
    expect(missed(near.additions)).toBeLessThan(between);
    expect(pickMix(worth(0, between), mixes)).toBe(near);
    // Where none matches, or all do, the score decides.
    expect(pickMix(worth(1, 0), mixes)?.toners.length).toBe(1);
    expect(pickMix(worth(0, 0), [mix(1, 0.5), mix(2, 0.4)])?.toners.length).toBe(2);
    expect(pickMix(worth(0, between), [])).toBeUndefined();
  });
});
