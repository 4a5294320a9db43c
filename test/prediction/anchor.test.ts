import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/InputError.js";
import { anchorToCard, censoredBands } from "../../src/forward/anchor.js";
import { createEvaluation, evaluate } from "../../src/forward/evaluate.js";
import { createForwardModel } from "../../src/forward/forwardModel.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";
import { pots } from "../fixtures/arbitraries.js";

const viewing = { observer: "1964-10", illuminants: [{ name: "D65" }] } as const;

const modelOf = (set: TonerSet) =>
  createForwardModel(
    set,
    viewing,
    set.surfaces.map(({ geometry }) => geometry),
  );

const reflectanceAt = (model: ReturnType<typeof modelOf>, grams: ArrayLike<number>) => {
  const at = createEvaluation(model);
  evaluate(model, grams, at);
  return at.reflectance;
};

describe("anchorToCard", () => {
  it("returns any card exactly at the pot it was sprayed from, censored and impossible readings too", () => {
    const readings = fc.array(fc.double({ min: 0, max: 1.2, noNaN: true }), { minLength: 93, maxLength: 93 });
    fc.assert(
      fc.property(pots, readings, ({ set, grams }, values) => {
        const bare = modelOf(set);
        const card = Float64Array.from(values).subarray(0, bare.coefficients.size);
        const anchored = reflectanceAt(anchorToCard(bare, grams, card), grams);
        anchored.forEach((r, b) => {
          expect(Math.abs(r - card[b])).toBeLessThanOrEqual(1e-12);
        });
      }),
      { seed: 3 },
    );
  });

  it("never lets absorption fall below zero, whatever is added", () => {
    fc.assert(
      fc.property(pots, fc.double({ min: 0, max: 500, noNaN: true }), ({ set, grams }, extra) => {
        const bare = modelOf(set);
        const brilliant = reflectanceAt(bare, grams).map((r) => Math.min(0.95, r + 0.3));
        const anchored = anchorToCard(bare, grams, brilliant);
        const mixed = grams.map((g, j) => (j % 2 === 0 ? g + extra : g));
        expect(reflectanceAt(anchored, mixed).every((r) => r >= 0 && r < 1.5)).toBe(true);
      }),
      { seed: 4 },
    );
  });

  it("reads a can of the wrong strength as strength where absorption is plain to see", () => {
    // One dark toner in white: the card is darker because its can is 20 % strong, by arithmetic outside the model.
    const flat = (value: number) => ({ "45:0": new Array(31).fill(value) });
    const set: TonerSet = {
      grid: { start: 400, step: 10, count: 31 },
      surfaces: [{ geometry: "45:0", k1: 0.04, k2: 0.6 }],
      toners: [
        { id: "white", k: flat(0.0001), s: flat(1) },
        { id: "black", k: flat(2), s: flat(0.03) },
      ],
    };
    const strong = modelOf({ ...set, toners: [set.toners[0], { ...set.toners[1], strength: 1.2 }] });
    const pot = [100, 40];
    const anchored = anchorToCard(modelOf(set), pot, reflectanceAt(strong, pot));
    // Part of it is always put down to the reading: the split trusts no single card altogether.
    expect(anchored.anchor.scale[0]).toBeGreaterThan(1.1);
    expect(anchored.anchor.scale[0]).toBeLessThan(1.25);
  });

  it("does not blame the cans for a trace of absorption in a nearly pure white", () => {
    const flat = (value: number) => ({ "45:0": new Array(31).fill(value) });
    const set: TonerSet = {
      grid: { start: 400, step: 10, count: 31 },
      surfaces: [{ geometry: "45:0", k1: 0.04, k2: 0.6 }],
      toners: [
        { id: "white", k: flat(1e-6), s: flat(1) },
        { id: "yellow", k: flat(1.2), s: flat(0.2) },
      ],
    };
    const bare = modelOf(set);
    const card = reflectanceAt(bare, [100, 0]).map((r) => r - 0.02);
    const { scale } = anchorToCard(bare, [100, 0], card).anchor;
    // A plain ratio of K/S would be in the thousands and throw the next gram of yellow off by as much.
    expect(Math.max(...scale)).toBeLessThan(1.5);
  });

  it("does not switch absorption off where a card is brighter than its pot can be", () => {
    const flat = (value: number) => ({ "45:0": new Array(31).fill(value) });
    const set: TonerSet = {
      grid: { start: 400, step: 10, count: 31 },
      surfaces: [{ geometry: "45:0", k1: 0.04, k2: 0.6 }],
      toners: [
        { id: "white", k: flat(0.07), s: flat(1) },
        { id: "yellow", k: flat(1.2), s: flat(0.2) },
      ],
    };
    const bare = modelOf(set);
    const anchored = anchorToCard(bare, [100, 0], new Float64Array(31).fill(0.91));
    // A factor of nought would make every toner clear: the next gram of yellow must still darken as yellow does.
    const fall = (model: typeof bare) =>
      reflectanceAt(model, [100, 0])[0] - reflectanceAt(model, [100, 5])[0];
    expect(fall(anchored)).toBeGreaterThan(0.5 * fall(bare));
  });

  it("refuses a pot in which nothing scatters, with code and place", () => {
    const set: TonerSet = {
      grid: { start: 400, step: 10, count: 31 },
      surfaces: [{ geometry: "45:0", k1: 0.04, k2: 0.6 }],
      toners: [{ id: "dye", k: { "45:0": new Array(31).fill(1) }, s: { "45:0": new Array(31).fill(0) } }],
    };
    const attempt = () => anchorToCard(modelOf(set), [10], new Float64Array(31).fill(0.2));
    expect(attempt).toThrow(InputError);
    expect(attempt).toThrow(/^pot: .*400 nm \[no-pigment\]$/);
  });
});

describe("censoredBands", () => {
  const surface = { offset: 0.04, gain: 0.384, k2: 0.6 };

  it("names readings at or under the surface's own reflection and above white, and no others", () => {
    const measured = Float64Array.of(0.03, 0.04, 0.0403, 0.042, 0.5, 0.99, 1.001, 1.2);
    expect(censoredBands(measured, surface)).toEqual([0, 1, 2, 6, 7]);
  });
});
