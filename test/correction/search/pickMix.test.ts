import { describe, expect, it } from "vitest";
import { after as seenWith } from "../../../src/problem/after.js";
import { differences } from "../../../src/problem/goal.js";
import { weighMix } from "../../../src/problem/weighMix.js";
import type { FoundMix } from "../../../src/search/createSearch.js";
import { pickMix } from "../../../src/search/pickMix.js";
import { smallProblem } from "../../certificate/smallProblems.js";

const { problem } = smallProblem(4);
const worth = (pourWorth: number, allowed: number) => ({
  ...problem,
  goal: { ...problem.goal, aims: problem.goal.aims.map((aim) => ({ ...aim, allowed })) },
  bench: { ...problem.bench, pourWorth },
});
/** Of so many toners with such a score; next to nothing is poured, so that all match alike. */
const mix = (pours: number, score: number): FoundMix => {
  const little = Float64Array.from(problem.bench.pot, (_, j) => (j < pours ? 2e-5 : 0));
  return {
    toners: Array.from({ length: pours }, (_, j) => j),
    additions: little,
    unrounded: little,
    score,
  };
};
const ANYTHING = Number.POSITIVE_INFINITY;

describe("the mix worth pouring", () => {
  it("has the least score with what its pours are worth", () => {
    const all = [mix(1, 0.5), mix(2, 0.2), mix(3, 0.12), mix(4, 0.09)];
    for (const allowed of [ANYTHING, 0]) {
      const picked = (pourWorth: number) => pickMix(worth(pourWorth, allowed), all)?.toners.length;
      expect(picked(0)).toBe(4);
      expect(picked(0.029)).toBe(4);
      expect(picked(0.031)).toBe(3);
      expect(picked(0.079)).toBe(3);
      expect(picked(0.081)).toBe(2);
      expect(picked(0.31)).toBe(1);
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

  it("saves paint beyond half as much as the pot holds, for what paint is worth", () => {
    const { pot } = problem.bench;
    const inPot = pot.reduce((sum, grams) => sum + grams, 0);
    const of = (share: number, score: number) => ({
      ...mix(1, score),
      additions: Float64Array.from(pot, (_, j) => (j === 0 ? share * inPot : 0)),
    });
    const thrift = (paintWorth: number) => ({
      ...worth(0.05, 0),
      bench: { ...problem.bench, pourWorth: 0.05, paintWorth },
    });
    const [close, far] = [of(2.5, 0.1), of(0.5, 0.25)];
    expect(pickMix(thrift(0), [close, far])).toBe(close);
    expect(pickMix(thrift(0.07), [close, far])).toBe(close);
    expect(pickMix(thrift(0.08), [close, far])).toBe(far);
    expect(weighMix(thrift(0.1).bench, close)).toEqual({
      score: 0.1,
      pours: 0.05,
      paint: 0.2,
      sum: 0.1 + 0.05 + 0.2,
    });
    expect(weighMix(thrift(0.1).bench, far).paint).toBe(0);
  });

  it("is never worse for more to choose from", () => {
    const all = [mix(1, 0.5), mix(2, 0.2), mix(3, 0.19), mix(4, 0.02)];
    const sums = all.map((_, i) => {
      const picked = pickMix(worth(0.05, 0), all.slice(0, i + 1));
      return picked ? weighMix(worth(0.05, 0).bench, picked).sum : Number.NaN;
    });
    expect(sums).toEqual([...sums].sort((a, b) => b - a));
  });
});
