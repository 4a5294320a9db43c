import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import { ciede2000Slopes } from "../../src/colorimetry/ciede2000Slopes.js";
import { type Lab, labFromLch } from "../../src/colorimetry/lab.js";
import { SHARMA_PAIRS } from "../../src/verification/data/sharma.js";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
/** Two colours with hues less than half a turn apart. */
const pairs = fc
  .tuple(between(5, 95), between(2, 90), between(0, 360), between(5, 95), between(2, 90), between(-160, 160))
  .map(([l1, c1, h1, l2, c2, turn]) => [labFromLch([l1, c1, h1]), labFromLch([l2, c2, h1 + turn])] as const);

describe("ciede2000Slopes", () => {
  it.each(SHARMA_PAIRS)("gives the published CIEDE2000 of %j and %j, %d", (reference, sample, published) => {
    expect(ciede2000Slopes(reference, sample).difference).toBeCloseTo(published, 4);
  });

  it("has the slopes of the differences, away from the kinks", () => {
    fc.assert(
      fc.property(pairs, ([reference, sample]) => {
        const { difference, slopes } = ciede2000Slopes(reference, sample);
        expect(difference).toBeCloseTo(ciede2000(reference, sample), 8);
        if (difference < 0.1) return;
        for (const a of [0, 1, 2] as const) {
          const at = (by: number) =>
            ciede2000(reference, [0, 1, 2].map((i) => sample[i] + (i === a ? by : 0)) as unknown as Lab);
          const step = 1e-5;
          // Hue 0 is one more kink, of some millionths: the rotation term does not know that 360° is 0°.
          expect(slopes[a]).toBeCloseTo((at(step) - at(-step)) / (2 * step), 4);
        }
      }),
      { numRuns: 2000, seed: 38 },
    );
  });

  it("is finite where the formula has a kink", () => {
    for (const [reference, sample] of [
      [
        [50, 0, 0],
        [50, 0, 0],
      ],
      [
        [50, 20, 5],
        [40, 0, 0],
      ],
      [
        [50, 0, 0],
        [40, 3, -2],
      ],
      [
        [50, 20, 0],
        [50, -20, 0],
      ],
    ] as const) {
      const { difference, slopes } = ciede2000Slopes(reference, sample);
      expect(difference).toBeCloseTo(ciede2000(reference, sample), 6);
      for (const slope of slopes) expect(Number.isFinite(slope)).toBe(true);
    }
  });
});
