import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { anchorToCard } from "../../src/forward/anchor.js";
import { createGradient, differentiate } from "../../src/forward/differentiate.js";
import { createEvaluation, evaluate } from "../../src/forward/evaluate.js";
import { createForwardModel, type ForwardModel } from "../../src/forward/forwardModel.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";
import { pots } from "../fixtures/arbitraries.js";

const viewing = { observer: "1964-10", illuminants: [{ name: "D65" }, { name: "A" }] } as const;

const modelOf = (set: TonerSet) =>
  createForwardModel(
    set,
    viewing,
    set.surfaces.map(({ geometry }) => geometry),
  );

/** Slope by central differences of fourth order: its own error is far below the 1e-6 that is asked of the model. */
function byDifferences(model: ForwardModel, grams: Float64Array, toner: number, of: "reflectance" | "lab") {
  const h = 2e-3 * grams[toner];
  const at = (by: number) => {
    const moved = Float64Array.from(grams);
    moved[toner] += by * h;
    const evaluation = createEvaluation(model);
    evaluate(model, moved, evaluation);
    return evaluation[of];
  };
  const [m2, m1, p1, p2] = [at(-2), at(-1), at(1), at(2)];
  return m1.map((_, i) => (m2[i] - 8 * m1[i] + 8 * p1[i] - p2[i]) / (12 * h));
}

function expectSameSlopes(model: ForwardModel, grams: Float64Array) {
  const at = createEvaluation(model);
  const slopes = createGradient(model);
  evaluate(model, grams, at);
  differentiate(model, at, slopes, Array.from(grams.keys()));
  for (const of of ["reflectance", "lab"] as const) {
    const width = slopes[of].length / grams.length;
    for (let j = 0; j < grams.length; j++) {
      const expected = byDifferences(model, grams, j, of);
      const row = slopes[of].subarray(j * width, (j + 1) * width);
      // Relative to the largest slope of the row: a slope that passes through zero has no relative error.
      const size = Math.max(...expected.map(Math.abs));
      row.forEach((slope, i) => {
        expect(Math.abs(slope - expected[i])).toBeLessThanOrEqual(1e-6 * size + 1e-12);
      });
    }
  }
}

describe("the Jacobian with respect to grams equals central differences to 1e-6 relative", () => {
  it("for the bare model", () => {
    fc.assert(
      fc.property(pots, ({ set, grams }) => expectSameSlopes(modelOf(set), grams)),
      { numRuns: 60, seed: 1 },
    );
  });

  it("for the model tied to a card that its toners do not explain", () => {
    fc.assert(
      fc.property(pots, fc.double({ min: 0.6, max: 1.4, noNaN: true }), ({ set, grams }, off) => {
        const bare = modelOf(set);
        const at = createEvaluation(bare);
        evaluate(bare, grams, at);
        const card = at.reflectance.map((r) => Math.min(0.9, r * off + 0.01));
        expectSameSlopes(anchorToCard(bare, grams, card), grams);
      }),
      { numRuns: 60, seed: 2 },
    );
  });

  it("stays finite where a mix does not absorb at all", () => {
    const flat = (value: number) => ({ "45:0": new Array(31).fill(value) });
    const set: TonerSet = {
      grid: { start: 400, step: 10, count: 31 },
      surfaces: [{ geometry: "45:0", k1: 0.04, k2: 0.6 }],
      toners: [
        { id: "white", k: flat(0), s: flat(1) },
        { id: "black", k: flat(2), s: flat(0) },
      ],
    };
    const model = modelOf(set);
    const at = createEvaluation(model);
    const slopes = createGradient(model);
    evaluate(model, [100, 0], at);
    differentiate(model, at, slopes, [0, 1]);
    expect(at.internal.every((r) => r === 1)).toBe(true);
    expect(slopes.lab.every(Number.isFinite)).toBe(true);
    expect(slopes.lab[6]).toBeLessThan(0);
  });
});
