import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { lagrangeStencil } from "../../src/spectra/lagrange.js";

const stencil = (position: number, count: number) => {
  const coefficients = new Float64Array(4);
  const first = lagrangeStencil(position, count, coefficients);
  return { first, coefficients: Array.from(coefficients) };
};

/** Coefficients for each tenth of an interval: ASTM E2022 as carried by colour-science. */
// biome-ignore format: a table
const INNER = [
  [-0.0285, 0.9405, 0.1045, -0.0165],
  [-0.048, 0.864, 0.216, -0.032],
  [-0.0595, 0.7735, 0.3315, -0.0455],
  [-0.064, 0.672, 0.448, -0.056],
  [-0.0625, 0.5625, 0.5625, -0.0625],
  [-0.056, 0.448, 0.672, -0.064],
  [-0.0455, 0.3315, 0.7735, -0.0595],
  [-0.032, 0.216, 0.864, -0.048],
  [-0.0165, 0.1045, 0.9405, -0.0285],
];
// biome-ignore format: a table
const BOUNDARY = [
  [0.855, 0.19, -0.045],
  [0.72, 0.36, -0.08],
  [0.595, 0.51, -0.105],
  [0.48, 0.64, -0.12],
  [0.375, 0.75, -0.125],
  [0.28, 0.84, -0.12],
  [0.195, 0.91, -0.105],
  [0.12, 0.96, -0.08],
  [0.055, 0.99, -0.045],
];

describe("lagrangeStencil", () => {
  it("published (seen): ASTM E2022 coefficients of the inner intervals", () => {
    INNER.forEach((row, i) => {
      const { first, coefficients } = stencil(4 + (i + 1) / 10, 20);
      expect(first).toBe(3);
      row.forEach((expected, k) => {
        expect(coefficients[k]).toBeCloseTo(expected, 12);
      });
    });
  });

  it("published (seen): ASTM E2022 coefficients of the first and the last interval", () => {
    BOUNDARY.forEach((row, i) => {
      const start = stencil((i + 1) / 10, 20);
      expect(start.first).toBe(0);
      const end = stencil(19 - (i + 1) / 10, 20);
      expect(end.first).toBe(17);
      row.forEach((expected, k) => {
        expect(start.coefficients[k]).toBeCloseTo(expected, 12);
        expect(end.coefficients[2 - k]).toBeCloseTo(expected, 12);
      });
      expect(start.coefficients[3]).toBe(0);
    });
  });

  it("stays inside the points and adds up to one everywhere", () => {
    const cases = fc
      .integer({ min: 3, max: 100 })
      .chain((count) => fc.tuple(fc.constant(count), fc.double({ min: 0, max: count - 1, noNaN: true })));
    fc.assert(
      fc.property(cases, ([count, position]) => {
        const { first, coefficients } = stencil(position, count);
        expect(first).toBeGreaterThanOrEqual(0);
        expect(first + (coefficients[3] === 0 ? 2 : 3)).toBeLessThan(count);
        expect(coefficients.reduce((sum, c) => sum + c, 0)).toBeCloseTo(1, 13);
      }),
    );
  });
});
