import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/InputError.js";
import {
  choleskyLower,
  choleskySolve,
  conditionNumber,
  numericalRank,
  singularValues,
  solveLeastSquares,
} from "../../src/numeric/linear/denseAlgebra.js";
import { refusal } from "../support/refusal.js";
import { system, vector } from "./arbitraries.js";
import { gradient, norm, times, transposed } from "./matrices.js";

const hilbert = (size: number) =>
  Float64Array.from({ length: size * size }, (_, k) => 1 / (Math.floor(k / size) + (k % size) + 1));

const identity = (size: number) =>
  Float64Array.from({ length: size * size }, (_, k) => (k % (size + 1) === 0 ? 1 : 0));

/** Two columns that differ by 1e-15 of themselves, and a third. */
const twins = Float64Array.from({ length: 31 * 3 }, (_, k) => {
  const i = Math.floor(k / 3);
  const first = 0.2 + Math.sin(i / 5) ** 2;
  return [first, first * (1 + (i % 2 === 0 ? 1e-15 : 0)), Math.cos(i / 9)][k % 3];
});

describe("singularValues", () => {
  it("of [[3, 0], [4, 5]] are √45 and √5 (by hand)", () => {
    const [first, second] = singularValues(Float64Array.of(3, 0, 4, 5), 2, 2);
    expect(first).toBeCloseTo(Math.sqrt(45), 14);
    expect(second).toBeCloseTo(Math.sqrt(5), 14);
  });

  it("do not change when the matrix is transposed, wide or tall", () => {
    fc.assert(
      fc.property(system({ maxRows: 6, maxColumns: 6 }), ({ matrix, rows, columns }) => {
        const here = singularValues(matrix, rows, columns);
        const there = singularValues(transposed(matrix, columns), columns, rows);
        expect(here).toHaveLength(Math.min(rows, columns));
        here.forEach((value, k) => {
          expect(there[k]).toBeCloseTo(value, 11);
        });
      }),
    );
  });

  it("refuse what is not a matrix of finite numbers", () => {
    const thrown = (call: () => unknown) => {
      try {
        call();
      } catch (error) {
        if (error instanceof InputError) return [error.code, error.path];
      }
      return undefined;
    };
    expect(thrown(() => singularValues(Float64Array.of(1, 2, 3), 2, 2))).toEqual(["wrong-length", "matrix"]);
    expect(thrown(() => singularValues(new Float64Array(0), 0, 2))).toEqual(["wrong-length", "matrix"]);
    expect(thrown(() => singularValues(Float64Array.of(1, Number.NaN), 1, 2))).toEqual([
      "not-finite",
      "matrix[1]",
    ]);
  });
});

describe("conditionNumber", () => {
  it.each([
    [3, 524.0567775860644],
    [5, 476607.2502422687],
  ])("of the Hilbert matrix of order %i is %f (published widely; from memory)", (size, expected) => {
    const condition = conditionNumber(singularValues(hilbert(size), size, size));
    expect(Math.abs(condition / expected - 1)).toBeLessThan(1e-9);
  });

  it("of a singular matrix is infinite or beyond 1/ε", () => {
    expect(conditionNumber(singularValues(Float64Array.of(1, 2, 2, 4), 2, 2))).toBeGreaterThan(4e15);
    expect(conditionNumber([2, 0])).toBe(Number.POSITIVE_INFINITY);
    expect(conditionNumber([0, 0])).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("numericalRank", () => {
  it("counts the singular values > max(rows, columns)·ε·σ_max, and not one that is equal to it", () => {
    const edge = 10 * Number.EPSILON * 4;
    expect(numericalRank([4, edge], 10, 2)).toBe(1);
    expect(numericalRank([4, edge * (1 + Number.EPSILON)], 10, 2)).toBe(2);
    expect(numericalRank([4, 1e-3], 10, 2, 1e-2)).toBe(1);
    expect(numericalRank([0, 0], 10, 2)).toBe(0);
  });

  it("sees two columns that are equal to 1e-15 as one", () => {
    expect(numericalRank(singularValues(twins, 31, 3), 31, 3)).toBe(2);
  });
});

describe("solveLeastSquares", () => {
  it("shares between two columns equal to 1e-15, instead of setting millions against millions", () => {
    const b = Float64Array.from(
      times(twins, 3, [0.7, 0.1, 0.4]),
      (value, i) => value + 1e-4 * Math.sin(7 * i),
    );
    const { x, rank } = solveLeastSquares(twins, b, 31, 3);
    expect(rank).toBe(2);
    expect(x[0]).toBeCloseTo(0.4, 3);
    expect(x[1]).toBeCloseTo(0.4, 3);
    expect(x[2]).toBeCloseTo(0.4, 3);
  });

  it("leaves a residual normal to all columns, wide or tall, and x is in the row space", () => {
    fc.assert(
      fc.property(system({ maxRows: 7, maxColumns: 7 }), ({ matrix, rightHandSide, rows, columns }) => {
        const singular = singularValues(matrix, rows, columns);
        const rank = numericalRank(singular, rows, columns);
        fc.pre(rank > 0 && singular[rank - 1] > 1e-3 * singular[0]);
        const solution = solveLeastSquares(matrix, rightHandSide, rows, columns);
        expect(solution.rank).toBe(rank);
        for (const slope of gradient(matrix, rightHandSide, solution.x)) expect(slope).toBeCloseTo(0, 8);
        // Solving AᵀA-wise for x itself must give x back: nothing of it is outside the row space.
        const again = solveLeastSquares(
          matrix,
          Float64Array.from(times(matrix, columns, solution.x)),
          rows,
          columns,
        );
        again.x.forEach((value, j) => {
          expect(value).toBeCloseTo(solution.x[j], 8);
        });
      }),
    );
  });

  it("is the shortest of the minimisers (by hand: x + y = 2)", () => {
    const { x } = solveLeastSquares(Float64Array.of(1, 1), Float64Array.of(2), 1, 2);
    expect(x[0]).toBeCloseTo(1, 14);
    expect(x[1]).toBeCloseTo(1, 14);
  });
});

describe("choleskySolve", () => {
  it("solves A·X = B for A = MᵀM + I", () => {
    fc.assert(
      fc.property(vector(16), vector(8), (m, b) => {
        const a = Float64Array.from({ length: 16 }, (_, k) => {
          const unit = Float64Array.from({ length: 4 }, (_, j) => (j === k % 4 ? 1 : 0));
          return times(transposed(m, 4), 4, times(m, 4, unit))[Math.floor(k / 4)] + (k % 5 === 0 ? 1 : 0);
        });
        const x = choleskySolve(a, b, 4, 2);
        for (const column of [0, 1]) {
          const product = times(
            a,
            4,
            [0, 1, 2, 3].map((i) => x[i * 2 + column]),
          );
          product.forEach((value, i) => {
            expect(value).toBeCloseTo(b[i * 2 + column], 10);
          });
        }
      }),
    );
  });

  it("inverts the Hilbert matrix of order 3 (by hand: whole numbers)", () => {
    const inverse = choleskySolve(hilbert(3), identity(3), 3, 3);
    [9, -36, 30, -36, 192, -180, 30, -180, 180].forEach((value, k) => {
      expect(inverse[k]).toBeCloseTo(value, 10);
    });
  });

  it("uses the symmetric part of a matrix that rounding has made unsymmetric", () => {
    const x = choleskySolve(Float64Array.of(2, 1 + 1e-15, 1, 2), Float64Array.of(3, 3), 2);
    expect(norm([x[0] - 1, x[1] - 1])).toBeLessThan(1e-14);
  });

  it.each([
    ["negative", [1, 2, 2, 1]],
    ["singular", [1, 1, 1, 1]],
    ["singular to rounding", [1, 1, 1, 1 + 2.3e-16]],
    ["of zeros", [0, 0, 0, 0]],
  ])("refuses a matrix that is %s", (_, matrix) => {
    expect(() => choleskySolve(Float64Array.from(matrix), Float64Array.of(1, 1), 2)).toThrow(InputError);
  });
});

describe("choleskyLower", () => {
  it("is the lower factor, of the symmetric part (by hand: 4 = 2·2, 2 = 2·1, 10 = 1 + 9)", () => {
    const lower = choleskyLower(Float64Array.of(4, 2 + 1e-15, 2, 10), 2);
    [2, 0, 1, 3].forEach((value, i) => {
      expect(lower[i]).toBeCloseTo(value, 12);
    });
  });

  it("refuses a matrix that is not positive definite, as choleskySolve does", () => {
    const singular = Float64Array.of(1, 2, 2, 4);
    const refused = { code: "out-of-range", path: "matrix" };
    expect(refusal(() => choleskyLower(singular, 2))).toEqual(refused);
    expect(refusal(() => choleskySolve(singular, Float64Array.of(1, 1), 2))).toEqual(refused);
  });
});
