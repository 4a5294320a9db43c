import { describe, expect, it } from "vitest";
import { chiSquareTail } from "../../src/numeric/probability/chiSquareTail.js";

describe("chiSquareTail", () => {
  // Percentage points as every table of the χ² distribution prints them (here to three decimals; from memory).
  it.each([
    [3.841, 1, 0.05],
    [6.635, 1, 0.01],
    [18.307, 10, 0.05],
    [23.209, 10, 0.01],
    [43.773, 30, 0.05],
    [53.672, 30, 0.005],
    [124.342, 100, 0.05],
  ])("P(χ² > %d) with %d degrees of freedom is %d", (x, k, tail) => {
    expect(chiSquareTail(x, k)).toBeCloseTo(tail, 4);
  });

  it("is e^(−x/2) with two degrees of freedom, and e^(−x/2)(1 + x/2) with four", () => {
    for (const x of [1e-6, 0.3, 2, 5.9, 6.1, 40, 300, 1000]) {
      expect(chiSquareTail(x, 2) / Math.exp(-x / 2)).toBeCloseTo(1, 10);
      expect(chiSquareTail(x, 4) / (Math.exp(-x / 2) * (1 + x / 2))).toBeCloseTo(1, 10);
    }
  });

  it("is 1 at and below 0, and never rises", () => {
    expect(chiSquareTail(0, 31)).toBe(1);
    expect(chiSquareTail(-3, 31)).toBe(1);
    let last = 1;
    for (let x = 0.5; x < 200; x += 0.5) {
      const tail = chiSquareTail(x, 31);
      expect(tail).toBeLessThanOrEqual(last);
      last = tail;
    }
  });
});
