import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import { deltaE00Metric } from "../../src/colorimetry/deltaE00Metric.js";
import { deltaE00Vector, deltaE00VectorSlopes } from "../../src/colorimetry/deltaE00Vector.js";
import type { Lab } from "../../src/colorimetry/lab.js";
import { SHARMA_PAIRS } from "../../src/verification/data/sharma.js";

const vectorOf = (target: Lab, lab: Lab) => deltaE00Vector(target, deltaE00Metric(target), lab);
const axis = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const colours: fc.Arbitrary<Lab> = fc.tuple(axis(0, 100), axis(-100, 100), axis(-100, 100));

describe("deltaE00Vector", () => {
  it.each(SHARMA_PAIRS)(
    "is as long as the published CIEDE2000 of %j and %j, %d",
    (target, lab, published) => {
      expect(Math.hypot(...vectorOf(target, lab))).toBeCloseTo(published, 4);
    },
  );

  it("is as long as CIEDE2000 for any two colours", () => {
    fc.assert(
      fc.property(colours, colours, (target, lab) => {
        const length = Math.hypot(...vectorOf(target, lab));
        expect(Math.abs(length - ciede2000(target, lab))).toBeLessThan(1e-6 + 1e-12 * length);
      }),
      { numRuns: 2000, seed: 36 },
    );
  });

  it("vanishes at the target, with the local metric for slopes", () => {
    const target: Lab = [43, 8, -31];
    expect(Math.hypot(...vectorOf(target, target))).toBe(0);
    expect(deltaE00VectorSlopes(target, deltaE00Metric(target), target).slopes).toEqual(
      deltaE00Metric(target),
    );
  });

  it("has the slopes that its differences have, away from the kinks of CIEDE2000", () => {
    const near = fc.tuple(axis(30, 80), axis(20, 50), axis(20, 50));
    const step = 1e-4;
    fc.assert(
      fc.property(near, fc.tuple(axis(1, 6), axis(-6, 6), axis(-6, 6)), (target, move) => {
        const lab: Lab = [target[0] + move[0], target[1] + move[1], target[2] + move[2]];
        const { vector, slopes } = deltaE00VectorSlopes(target, deltaE00Metric(target), lab);
        expect(vector).toEqual(vectorOf(target, lab));
        for (const a of [0, 1, 2] as const) {
          const moved = (by: number): Lab =>
            [0, 1, 2].map((i) => lab[i] + (i === a ? by : 0)) as unknown as Lab;
          const [up, down] = [vectorOf(target, moved(step)), vectorOf(target, moved(-step))];
          for (const i of [0, 1, 2] as const) {
            expect(slopes[i][a]).toBeCloseTo((up[i] - down[i]) / (2 * step), 6);
          }
        }
      }),
      { numRuns: 300, seed: 37 },
    );
  });
});
