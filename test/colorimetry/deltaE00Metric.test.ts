import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ciede2000 } from "../../src/colorimetry/ciede2000.js";
import { deltaE00Metric } from "../../src/colorimetry/deltaE00Metric.js";
import type { Lab, Matrix3 } from "../../src/colorimetry/lab.js";

const length = (rows: Matrix3, d: Lab) =>
  Math.hypot(...rows.map((row) => row[0] * d[0] + row[1] * d[1] + row[2] * d[2]));

const step = (from: Lab, direction: Lab, size: number): Lab => [
  from[0] + size * direction[0],
  from[1] + size * direction[1],
  from[2] + size * direction[2],
];

const units = fc
  .tuple(fc.double({ min: -1, max: 1, noNaN: true }), fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }))
  .map(([l, angle]): Lab => {
    const rest = Math.sqrt(1 - l * l);
    return [l, rest * Math.cos(angle), rest * Math.sin(angle)];
  });
const between = (min: number, max: number) =>
  fc.integer({ min: 1000 * min, max: 1000 * max }).map((value) => value / 1000);
const colours = fc.oneof(
  fc.tuple(between(5, 95), between(-80, 80), between(-80, 80)),
  // The blue region, where the rotation term counts.
  fc.tuple(between(10, 60), between(-10, 40), between(-90, -20)),
);

describe("deltaE00Metric against the true CIEDE2000", () => {
  it("is met ever better by shrinking steps", () => {
    fc.assert(
      fc.property(colours, units, (colour, direction) => {
        fc.pre(Math.hypot(colour[1], colour[2]) > 1);
        const expected = length(deltaE00Metric(colour), direction);
        const error = (size: number) =>
          Math.abs(ciede2000(colour, step(colour, direction, size)) / size / expected - 1);
        expect(error(1e-2)).toBeLessThan(0.02);
        expect(error(1e-3)).toBeLessThan(2e-3);
        expect(error(1e-4)).toBeLessThan(2e-4);
      }),
      { numRuns: 500 },
    );
  });

  it("holds for neutrals in every direction, where it does not depend on a hue", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 100, noNaN: true }), units, (lightness, direction) => {
        const neutral: Lab = [lightness, 0, 0];
        const rows = deltaE00Metric(neutral);
        expect(rows.flat().every(Number.isFinite)).toBe(true);
        expect(ciede2000(neutral, step(neutral, direction, 1e-4)) / 1e-4).toBeCloseTo(
          length(rows, direction),
          3,
        );
        const near = deltaE00Metric([lightness, 1e-9 * direction[1], 1e-9 * direction[2]]);
        expect(length(near, direction)).toBeCloseTo(length(rows, direction), 6);
      }),
    );
  });

  it("takes the parametric factors", () => {
    const options = { kL: 2, kC: 1.5, kH: 0.7 };
    const blue: Lab = [30, 20, -60];
    const direction: Lab = [0.5, 0.7, -0.5];
    const size = 1e-5;
    const difference = ciede2000(blue, step(blue, direction, size), options) / size;
    expect(length(deltaE00Metric(blue, options), direction)).toBeCloseTo(difference, 4);
  });
});
