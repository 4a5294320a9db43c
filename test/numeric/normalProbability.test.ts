import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { normalProbability, normalQuantile } from "../../src/numeric/probability/normalProbability.js";
import { refusal } from "../support/refusal.js";

describe("the normal law", () => {
  it("meets the printed tables (values from memory)", () => {
    expect(normalQuantile(0.95)).toBeCloseTo(1.6448536269514722, 13);
    expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 13);
    expect(normalQuantile(0.5)).toBeCloseTo(0, 14);
    expect(normalProbability(1)).toBeCloseTo(0.8413447460685429, 14);
    expect(normalProbability(-3)).toBeCloseTo(0.0013498980316301, 14);
  });

  it("is symmetric, and the quantile its inverse", () => {
    fc.assert(
      fc.property(fc.double({ min: -5, max: 5, noNaN: true }), (x) => {
        expect(normalProbability(x) + normalProbability(-x)).toBeCloseTo(1, 14);
        expect(normalQuantile(normalProbability(x))).toBeCloseTo(x, 7);
      }),
    );
  });

  it("ends at 0 and 1, and refuses what is no probability inside them", () => {
    expect(normalProbability(-50)).toBe(0);
    expect(normalProbability(50)).toBe(1);
    expect(refusal(() => normalQuantile(1))).toEqual({ code: "out-of-range", path: "p" });
  });
});
