import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { findRoot } from "../../src/numeric/scalar/root.js";
import { refusal } from "../support/refusal.js";

describe("findRoot", () => {
  it.each<[string, (x: number) => number, number, number, number]>([
    ["x³ − 2x − 5 (Wallis' cubic; from memory)", (x) => x ** 3 - 2 * x - 5, 2, 3, 2.0945514815423265],
    ["cos x (π/2)", Math.cos, 0, 3, Math.PI / 2],
    ["x = cos x (the Dottie number; from memory)", (x) => x - Math.cos(x), 0, 1, 0.7390851332151607],
    ["eˣ = 10⁵ over a hundred orders", (x) => Math.exp(x) - 1e5, -100, 300, 5 * Math.LN10],
    ["a step", (x) => (x < 0.3 ? -1 : 1), 0, 1, 0.3],
    ["a steep tanh", (x) => Math.tanh(1e6 * (x - 0.1)), -5, 1, 0.1],
  ])("solves %s to the last digits", (_, f, low, high, expected) => {
    const result = findRoot(f, low, high);
    expect(result.converged).toBe(true);
    expect(Math.abs(result.x - expected)).toBeLessThanOrEqual(4 * Number.EPSILON * expected);
    expect(result.value).toBe(f(result.x));
  });

  it("finds the root of any rising cubic, in the order of steps of bisection at worst", () => {
    const coefficient = fc.double({ min: 1e-6, max: 1e6, noNaN: true });
    const place = fc.double({ min: -9, max: 9, noNaN: true });
    fc.assert(
      fc.property(coefficient, coefficient, place, (a, b, root) => {
        const f = (x: number) => a * (x - root) ** 3 + b * (x - root);
        const result = findRoot(f, -10, 11, { tolerance: 1e-9 });
        expect(result.converged).toBe(true);
        expect(Math.abs(result.x - root)).toBeLessThanOrEqual(1e-9 + 4 * Number.EPSILON * 10);
        expect(result.evaluations).toBeLessThan(3 * Math.log2(21 / 1e-9));
      }),
    );
  });

  it("asks little of a smooth function", () => {
    expect(findRoot((x) => x ** 3 - 2 * x - 5, 2, 3).evaluations).toBeLessThanOrEqual(10);
  });

  it("keeps to its bracket", () => {
    const seen: number[] = [];
    findRoot(
      (x) => {
        seen.push(x);
        return Math.atan(x - 0.2) + 0.01;
      },
      -3,
      7,
    );
    expect(Math.min(...seen)).toBe(-3);
    expect(Math.max(...seen)).toBe(7);
  });

  it("names why it stopped", () => {
    expect(findRoot((x) => x, 0, 1)).toMatchObject({ x: 0, stopReason: "zero", evaluations: 2 });
    expect(findRoot((x) => x ** 2 - 2, 0, 2, { tolerance: 0.1 })).toMatchObject({ stopReason: "bracket" });
    expect(findRoot((x) => x ** 2 - 2, 0, 2, { maxEvaluations: 4 })).toMatchObject({
      stopReason: "evaluation-limit",
      converged: false,
      evaluations: 4,
    });
    expect(findRoot((x) => (x === 0 || x === 1 ? x - 0.5 : Number.NaN), 0, 1)).toMatchObject({
      stopReason: "not-finite",
      converged: false,
    });
  });

  it("refuses a bracket without a change of sign, and ends that are no numbers", () => {
    expect(refusal(() => findRoot((x) => x * x + 1, -1, 1))).toMatchObject({
      code: "out-of-range",
      path: "low",
    });
    expect(refusal(() => findRoot((x) => 1e-300 * (x + 2), -1, 1))).toMatchObject({ code: "out-of-range" });
    expect(refusal(() => findRoot((x) => x, 1, -1))).toMatchObject({ code: "out-of-range", path: "high" });
    expect(refusal(() => findRoot((x) => x, Number.NaN, 1))).toMatchObject({
      code: "not-finite",
      path: "low",
    });
    expect(refusal(() => findRoot((x) => 1 / x, 0, 1))).toMatchObject({ code: "not-finite", path: "f(low)" });
  });
});
