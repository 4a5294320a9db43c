import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  applyReflector,
  factorise,
  makeReflector,
  solveUpper,
  solveUpperTransposed,
} from "../../src/numeric/linear/householder.js";
import { entry, system, vector } from "./arbitraries.js";
import { gradient, norm, times, transposed } from "./matrices.js";

describe("makeReflector, applyReflector", () => {
  it("turn x into (α, 0, …) with α = −sign(x₀)·‖x‖", () => {
    fc.assert(
      fc.property(fc.array(entry, { minLength: 1, maxLength: 9 }), (values) => {
        const v = Float64Array.from(values);
        const alpha = makeReflector(v, 0, 1, v.length);
        const image = Float64Array.from(values);
        applyReflector({ values: v, start: 0, stride: 1 }, v.length, { values: image, start: 0, stride: 1 });
        expect(alpha).toBeCloseTo(values[0] < 0 ? norm(values) : -norm(values), 12);
        image.forEach((value, i) => {
          expect(value).toBeCloseTo(i === 0 ? alpha : 0, 12);
        });
      }),
    );
  });

  it("keep lengths, with any start and stride", () => {
    fc.assert(
      fc.property(vector(24), vector(24), (a, y) => {
        const before = y.slice();
        makeReflector(a, 1, 5, 4);
        applyReflector({ values: a, start: 1, stride: 5 }, 4, { values: y, start: 2, stride: 3 });
        const touched = (_: number, i: number) => [2, 5, 8, 11].includes(i);
        expect(norm(y.filter(touched))).toBeCloseTo(norm(before.filter(touched)), 12);
        expect(y.filter((_, i) => !touched(_, i))).toEqual(before.filter((_, i) => !touched(_, i)));
      }),
    );
  });
});

describe("factorise", () => {
  const factorised = (matrix: Float64Array, rows: number, columns: number, rightHandSide: Float64Array) => {
    const factor = matrix.slice();
    const diagonal = new Float64Array(columns);
    const target = rightHandSide.slice();
    factorise(factor, rows, columns, diagonal, target);
    return { factor, diagonal, target };
  };

  const upper = (factor: Float64Array, diagonal: Float64Array) =>
    Float64Array.from({ length: diagonal.length ** 2 }, (_, k) => {
      const i = Math.floor(k / diagonal.length);
      const j = k % diagonal.length;
      return i === j ? diagonal[i] : i < j ? factor[k] : 0;
    });

  it("leaves an R with RᵀR = AᵀA, whatever the rank", () => {
    fc.assert(
      fc.property(
        system({ maxRows: 9, maxColumns: 6, tall: "tall" }),
        ({ rows, columns, matrix, rightHandSide }) => {
          const { factor, diagonal } = factorised(matrix, rows, columns, rightHandSide);
          const r = upper(factor, diagonal);
          for (let j = 0; j < columns; j++) {
            const unit = Float64Array.from({ length: columns }, (_, k) => (k === j ? 1 : 0));
            const squareOfA = times(transposed(matrix, columns), rows, times(matrix, columns, unit));
            const squareOfR = times(transposed(r, columns), columns, times(r, columns, unit));
            squareOfA.forEach((value, i) => {
              expect(squareOfR[i]).toBeCloseTo(value, 11);
            });
          }
        },
      ),
    );
  });

  it("and solveUpper give the least-squares solution: its residual is normal to the columns", () => {
    fc.assert(
      fc.property(
        system({ maxRows: 9, maxColumns: 5, tall: "tall" }),
        ({ rows, columns, matrix, rightHandSide }) => {
          for (let j = 0; j < columns; j++) matrix[j * columns + j] += 7;
          const { factor, diagonal, target } = factorised(matrix, rows, columns, rightHandSide);
          fc.pre(diagonal.every((value) => Math.abs(value) > 0.1));
          solveUpper(factor, columns, diagonal, target);
          for (const slope of gradient(matrix, rightHandSide, target.subarray(0, columns))) {
            expect(slope).toBeCloseTo(0, 9);
          }
        },
      ),
    );
  });

  it("solveUpperTransposed solves Rᵀy = b", () => {
    fc.assert(
      fc.property(vector(16), vector(4), (matrix, b) => {
        for (let j = 0; j < 4; j++) matrix[j * 5] += 13;
        const { factor, diagonal } = factorised(matrix, 4, 4, b);
        const y = Float64Array.of(...b, 7);
        solveUpperTransposed(factor, 4, diagonal, y);
        // What lies beyond is none of its business.
        expect(y[4]).toBe(7);
        times(transposed(upper(factor, diagonal), 4), 4, y.subarray(0, 4)).forEach((value, i) => {
          expect(value).toBeCloseTo(b[i], 12);
        });
      }),
    );
  });
});
