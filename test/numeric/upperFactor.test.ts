import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { solveTransposed, solveUpper, upperFactor } from "../../src/numeric/linear/upperFactor.js";
import { vector } from "./arbitraries.js";
import { times, transposed } from "./matrices.js";

/** A factor in whole numbers, and its square worked out by hand. */
const gram = Float64Array.of(4, 12, -16, 12, 37, -43, -16, -43, 98);
const factor = Float64Array.of(2, 6, -8, 0, 1, 5, 0, 0, 3);

const close = (found: ArrayLike<number>, expected: ArrayLike<number>, digits = 9) => {
  expect(found.length).toBe(expected.length);
  Array.from(found, (value, i) => expect(value).toBeCloseTo(expected[i], digits));
};

describe("upperFactor", () => {
  it("is the factor of a matrix made from it", () => {
    expect(upperFactor(gram, 3)).toEqual(factor);
  });

  it("solves RᵀRx = b", () => {
    const x = [3, -2, 0.5];
    const b = times(gram, 3, x);
    close(solveUpper(factor, 3, solveTransposed(factor, 3, b)), x);
  });

  it("multiplies back to AᵀA, dependent columns included", () => {
    const shapes = fc
      .tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 5 }))
      .chain(([rows, columns]) =>
        fc.record({ columns: fc.constant(columns), matrix: vector(rows * columns) }),
      );
    fc.assert(
      fc.property(shapes, ({ columns, matrix }) => {
        const product = (a: Float64Array) => {
          const t = transposed(a, columns);
          const rows = a.length / columns;
          return Float64Array.from({ length: columns ** 2 }, (_, at) => {
            let sum = 0;
            for (let r = 0; r < rows; r++) {
              sum += t[Math.floor(at / columns) * rows + r] * t[(at % columns) * rows + r];
            }
            return sum;
          });
        };
        const expected = product(matrix);
        const r = upperFactor(expected, columns);
        close(product(r), expected, 3);
        r.forEach((value, at) => {
          if (at % columns < Math.floor(at / columns)) expect(value).toBe(0);
        });
      }),
      { numRuns: 500, seed: 35 },
    );
  });

  it("gives a column that depends on those before it no share in a solution", () => {
    const twins = upperFactor(Float64Array.of(4, 4, 4, 4), 2);
    expect(twins).toEqual(Float64Array.of(2, 2, 0, 0));
    expect(solveTransposed(twins, 2, [8, 9])).toEqual(Float64Array.of(4, 0));
    expect(solveUpper(twins, 2, solveTransposed(twins, 2, [8, 8]))).toEqual(Float64Array.of(2, 0));
  });
});
