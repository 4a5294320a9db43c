import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import { differenceParts } from "../../src/colorimetry/differenceParts.js";
import type { Lab } from "../../src/colorimetry/lab.js";

const labs = fc.tuple(
  fc.double({ min: 5, max: 95, noNaN: true }),
  fc.double({ min: -60, max: 60, noNaN: true }),
  fc.double({ min: -60, max: 60, noNaN: true }),
) as fc.Arbitrary<Lab>;

describe("the parts of a difference", () => {
  it("of lightness alone are ΔE00", () => {
    fc.assert(
      fc.property(labs, fc.double({ min: -5, max: 5, noNaN: true }), ([l, a, b], by) => {
        const parts = differenceParts([l, a, b], [l + by, a, b]);
        expect(Math.abs(parts.lighter)).toBeCloseTo(ciede2000([l, a, b], [l + by, a, b]), 9);
        expect([parts.redder, parts.yellower, parts.moreChromatic].map(Math.abs)).toEqual([0, 0, 0]);
      }),
    );
  });

  it("of small differences off the blue, where nothing is rotated, add up to ΔE00", () => {
    fc.assert(
      fc.property(
        labs.filter(([, a, b]) => b > 5 && Math.hypot(a, b) > 5),
        fc.double({ min: 0, max: 6.28, noNaN: true }),
        ([l, a, b], turn) => {
          const other: Lab = [l, a + 0.05 * Math.cos(turn), b + 0.05 * Math.sin(turn)];
          const { lighter, redder, yellower } = differenceParts([l, a, b], other);
          const expected = ciede2000([l, a, b], other);
          expect(Math.abs(Math.hypot(lighter, redder, yellower) - expected)).toBeLessThan(
            0.01 * expected + 1e-4,
          );
        },
      ),
    );
  });

  it("turn about when the colours change places, and have the signs of the words", () => {
    const parts = differenceParts([50, 10, 20], [52, 12, 21]);
    const back = differenceParts([52, 12, 21], [50, 10, 20]);
    for (const part of ["lighter", "redder", "yellower", "moreChromatic"] as const) {
      expect(parts[part]).toBeGreaterThan(0);
      expect(back[part]).toBeCloseTo(-parts[part], 12);
    }
  });
});
