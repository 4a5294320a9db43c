import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { firstShare, wholeSteps } from "../../../src/forecast/firstShare.js";

describe("firstShare", () => {
  it("is 0.80 for a strength known to 15 % at 95 %: 1/(1 + 1.645·0.15)", () => {
    expect(firstShare(0.15, 0.95)).toBeCloseTo(1 / (1 + 1.6448536269514722 * 0.15), 12);
    expect(firstShare(0.15, 0.95)).toBeCloseTo(0.802, 3);
  });

  it("is 1 for a known toner, and falls with the doubt and with the safety asked for", () => {
    expect(firstShare(0, 0.95)).toBe(1);
    const sds = fc.double({ min: 0.001, max: 1, noNaN: true });
    fc.assert(
      fc.property(sds, fc.double({ min: 0.51, max: 0.99, noNaN: true }), (sd, safety) => {
        expect(firstShare(2 * sd, safety)).toBeLessThan(firstShare(sd, safety));
        expect(firstShare(sd, safety + 0.005)).toBeLessThan(firstShare(sd, safety));
      }),
    );
  });
});

describe("wholeSteps", () => {
  it("rounds down to the scale, pours at least one step, never more than was wanted", () => {
    expect(wholeSteps(1, 0.8, 0.1)).toBe(0.8);
    expect(wholeSteps(1, 0.79, 0.1)).toBe(0.7);
    expect(wholeSteps(0.1, 0.8, 0.1)).toBe(0.1);
    expect(wholeSteps(0.3, 1, 0.1)).toBe(0.3);
    expect(wholeSteps(1, 0.79, 0)).toBe(0.79);
  });
});
