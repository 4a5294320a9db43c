import { describe, expect, it } from "vitest";
import { createScore } from "../../../src/problem/score.js";
import { PAINT_IS_FREE } from "../../../src/problem/terms.js";
import { polish, unroundedBest } from "../../../src/search/polish.js";
import { searchMixes } from "../../../src/search/searchMixes.js";
import { smallProblem } from "../../certificate/smallProblems.js";

/** A small problem in least squares, with or without steps, and its best mix. */
function scene(seed: number, step: number) {
  const { problem: asked } = smallProblem(seed);
  const all = (grams: number) => asked.bench.unit.map(() => grams);
  const problem = {
    ...asked,
    goal: { ...asked.goal, objective: "least-squares" as const },
    bench: { ...asked.bench, unit: all(step), least: all(step) },
  };
  const mix = searchMixes(problem, PAINT_IS_FREE).byPours.at(-1);
  return { problem, mix, score: createScore(problem, PAINT_IS_FREE) };
}

describe.each([0, 4, 13])("the last refinement of a mix (seed %i)", (seed) => {
  it("leaves whole steps as they are, and tells what they would be unrounded", () => {
    const { problem, mix, score } = scene(seed, 0.5);
    if (!mix) throw new Error("no mix");
    const { additions, unrounded, converged } = polish(problem, mix, PAINT_IS_FREE);
    expect(converged).toBe(true);
    expect(additions).toEqual(mix.additions);
    expect(score(unrounded)).toBeLessThanOrEqual(score(additions) + 1e-9);
  });

  it("makes what is not rounded no worse, and no small step leads further down", () => {
    const { problem, mix, score } = scene(seed, 0);
    if (!mix) throw new Error("no mix");
    const { additions } = polish(problem, mix, PAINT_IS_FREE);
    const polished = score(additions);
    expect(polished).toBeLessThanOrEqual(mix.score);
    for (const j of mix.toners) {
      for (const by of [-0.01, 0.01]) {
        const moved = additions.map((grams, i) => (i === j ? Math.max(0, grams + by) : grams));
        const sum = moved.reduce((total, grams) => total + grams, 0);
        if (moved[j] > problem.bench.stock[j] || sum > problem.bench.room) continue;
        expect(score(moved)).toBeGreaterThan(polished * (1 - 1e-3) - 1e-6);
      }
    }
    expect(unroundedBest(problem, mix).additions).toBe(mix.additions);
  });
});

it("with no mix nothing is poured, and it is told how the solver ended", () => {
  const { problem } = scene(4, 0.5);
  const { additions, unrounded, stopReason } = polish(problem, undefined, PAINT_IS_FREE);
  expect([...additions, ...unrounded].every((grams) => grams === 0)).toBe(true);
  expect(stopReason).not.toBe("");
});
