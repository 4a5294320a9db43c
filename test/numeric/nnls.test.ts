import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nnls } from "../../src/numeric/leastSquares/nnls.js";
import { refusal } from "../support/refusal.js";
import { type System, system, vector } from "./arbitraries.js";
import { columnNorms, gradient, minus, norm, times } from "./matrices.js";

/** Systems of all kinds that are hard: ties, zero, double and nearly double columns, low rank, odd units. */
const hard: fc.Arbitrary<System> = fc
  .tuple(
    system({ maxRows: 12, maxColumns: 12 }),
    fc.constantFrom(0, 1e-15, 1e-12, 1e-8, undefined),
    fc.boolean(),
    fc.array(fc.integer({ min: -8, max: 8 }), { minLength: 12, maxLength: 12 }),
  )
  .map(([{ rows, columns, matrix, rightHandSide }, difference, attainable, exponents]) => {
    for (let i = 0; i < rows; i++) {
      for (let j = 1; difference !== undefined && j < columns; j += 2) {
        matrix[i * columns + j] = matrix[i * columns + j - 1] * (1 + (i % 3 === 0 ? difference : 0));
      }
      for (let j = 0; j < columns; j++) matrix[i * columns + j] *= 10 ** exponents[j];
    }
    if (attainable) {
      const mixture = exponents.slice(0, columns).map((exponent, j) => (j % 3 === 0 ? 0 : 10 ** -exponent));
      rightHandSide.set(times(matrix, columns, mixture));
    }
    return { rows, columns, matrix, rightHandSide };
  });

/** How far the Kuhn–Tucker conditions are from holding, relative to the terms they are the difference of. */
function violation({ matrix, rightHandSide, columns }: System, x: Float64Array): number {
  const lengths = columnNorms(matrix, columns);
  const terms = lengths.reduce((sum, length, j) => sum + length * x[j], norm(rightHandSide));
  const slopes = gradient(matrix, rightHandSide, x);
  return slopes.reduce((worst, slope, j) => {
    const wrong = x[j] > 0 ? Math.abs(slope) : Math.max(0, -slope);
    return Math.max(worst, wrong === 0 ? 0 : wrong / (lengths[j] * terms));
  }, 0);
}

describe("nnls", () => {
  it("meets the Kuhn–Tucker conditions on every kind of system, without reaching its limit", () => {
    fc.assert(
      fc.property(hard, (problem) => {
        const { matrix, rightHandSide, rows, columns } = problem;
        const result = nnls(matrix, rightHandSide, rows, columns);
        expect(result.stopReason).toBe("optimal");
        expect(result.x.every((value) => value >= 0)).toBe(true);
        expect(violation(problem, result.x)).toBeLessThan(1e-12);
        const residual = norm(minus(times(matrix, columns, result.x), rightHandSide));
        const size = columnNorms(matrix, columns).reduce((sum, length, j) => sum + length * result.x[j], 0);
        expect(Math.abs(result.residualNorm - residual)).toBeLessThanOrEqual(
          1e-13 * (size + norm(rightHandSide)),
        );
      }),
      { numRuns: 1000 },
    );
  });

  it("gives each column the same share wherever it stands", () => {
    fc.assert(
      fc.property(system({ maxRows: 9, maxColumns: 6, tall: "tall" }), (problem) => {
        const { matrix, rightHandSide, rows, columns } = problem;
        for (let j = 0; j < columns; j++) matrix[j * columns + j] += 8;
        const reversed = matrix.map((_, k) => matrix[k + columns - 1 - 2 * (k % columns)]);
        const here = nnls(matrix, rightHandSide, rows, columns);
        const there = nnls(reversed, rightHandSide, rows, columns);
        here.x.forEach((value, j) => {
          expect(there.x[columns - 1 - j]).toBeCloseTo(value, 10);
        });
      }),
    );
  });

  it("does not mind the units of a column", () => {
    fc.assert(
      fc.property(
        system({ maxRows: 9, maxColumns: 6 }),
        fc.array(fc.integer({ min: -27, max: 27 }), { minLength: 6, maxLength: 6 }),
        ({ matrix, rightHandSide, rows, columns }, exponents) => {
          const plain = nnls(matrix, rightHandSide, rows, columns);
          const scaled = matrix.map((value, k) => value * 2 ** exponents[k % columns]);
          const other = nnls(scaled, rightHandSide, rows, columns);
          // Powers of two are exact, so all arithmetic is the same.
          expect(Array.from(other.x, (value, j) => value * 2 ** exponents[j])).toEqual(Array.from(plain.x));
        },
      ),
    );
  });

  it("finds a mixture of positive parts again", () => {
    fc.assert(
      fc.property(vector(12 * 5), vector(5), (matrix, parts) => {
        for (let j = 0; j < 5; j++) matrix[j * 5 + j] += 9;
        const mixture = parts.map(Math.abs);
        const { x } = nnls(matrix, Float64Array.from(times(matrix, 5, mixture)), 12, 5);
        x.forEach((value, j) => {
          expect(value).toBeCloseTo(mixture[j], 11);
        });
      }),
    );
  });

  it("takes one of two columns equal to 1e-15, and no large amounts", () => {
    const a = Float64Array.from(
      { length: 62 },
      (_, k) => (1 + (k % 4 === 1 ? 1e-15 : 0)) * (1 + Math.sin(k >> 1)),
    );
    const b = Float64Array.from({ length: 31 }, (_, i) => 2 * (1 + Math.sin(i)) + 1e-3 * Math.cos(5 * i));
    const { x } = nnls(a, b, 31, 2);
    expect(x[0] + x[1]).toBeCloseTo(2, 2);
    expect(Math.min(...x)).toBe(0);
  });

  it("stops at its limit with what it has", () => {
    const a = Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);
    const result = nnls(a, Float64Array.of(1, 2, 3), 3, 3, { maxIterations: 2 });
    expect(result).toMatchObject({ stopReason: "iteration-limit", iterations: 2 });
    expect(Array.from(result.x)).toEqual([0, 2, 3]);
  });

  it("refuses wrong lengths and numbers that are not finite", () => {
    const two = Float64Array.of(1, 2);
    expect(refusal(() => nnls(two, two, 2, 2))).toMatchObject({ code: "wrong-length", path: "a" });
    expect(refusal(() => nnls(two, two, 1, 2))).toMatchObject({ code: "wrong-length", path: "b" });
    const bad = Float64Array.of(1, Number.NaN);
    expect(refusal(() => nnls(two, bad, 2, 1))).toMatchObject({ code: "not-finite", path: "b[1]" });
  });
});
