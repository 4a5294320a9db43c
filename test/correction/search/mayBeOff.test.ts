import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mayBeOff, withinReach } from "../../../src/search/mayBeOff.js";

const positive = (max: number) => fc.double({ min: 0, max, noNaN: true });

describe("what is within reach of a score", () => {
  it("is every distance at which the model, less what it may be off, says no more than the score", () => {
    fc.assert(
      fc.property(positive(5), positive(25), positive(3), positive(20), (score, rest, lead, d) => {
        const says = Math.sqrt(rest + d * d) - mayBeOff(d + lead);
        const reach = withinReach(score, rest, lead);
        if (says <= score - 1e-9) expect(d * d).toBeLessThanOrEqual(reach * (1 + 1e-9));
        // And little more: by the bend alone there is nothing beyond.
        if (reach > 0) {
          const end = Math.sqrt(reach);
          expect(Math.sqrt(rest + reach)).toBeLessThanOrEqual((score + 0.5 * (end + lead)) * (1 + 1e-9));
        }
      }),
      { numRuns: 5000, seed: 41 },
    );
  });

  it("is the sphere of the model where that is trusted, and nothing where even its best point is too far", () => {
    // A thousandth of a ΔE00 away nothing bends: d is the score.
    expect(Math.sqrt(withinReach(1e-3, 0, 0))).toBeCloseTo(1e-3, 5);
    expect(withinReach(0.1, 4, 0)).toBe(-1);
  });
});
