import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { leastDistance } from "../../src/numeric/leastSquares/leastDistance.js";
import { vector } from "./arbitraries.js";
import { norm, times } from "./matrices.js";

describe("leastDistance", () => {
  it("of a box is the corner nearest to zero", () => {
    fc.assert(
      fc.property(vector(4), vector(4), (ends, others) => {
        const lower = ends.map((value, j) => Math.min(value, others[j]));
        const upper = ends.map((value, j) => Math.max(value, others[j]));
        const matrix = Float64Array.from({ length: 32 }, (_, k) => (k % 5 === 0 && k < 16 ? 1 : 0));
        for (let j = 0; j < 4; j++) matrix[16 + j * 5] = -1;
        const x = leastDistance({ matrix, atLeast: Float64Array.of(...lower, ...upper.map((v) => -v)) }, 4);
        expect(x).toBeDefined();
        x?.forEach((value, j) => {
          expect(value).toBeCloseTo(Math.min(Math.max(0, lower[j]), upper[j]), 11);
        });
      }),
    );
  });

  it("of a half-space is the foot of the perpendicular, at any scale", () => {
    fc.assert(
      fc.property(vector(3), fc.integer({ min: -9, max: 9 }), (g, exponent) => {
        fc.pre(norm(g) > 0);
        const h = 10 ** exponent;
        const x = leastDistance({ matrix: g, atLeast: Float64Array.of(h) }, 3);
        expect(x).toBeDefined();
        x?.forEach((value, j) => {
          expect(value / h).toBeCloseTo(g[j] / norm(g) ** 2, 9);
        });
      }),
    );
  });

  it("finds a point wherever there is one, no longer than it must be", () => {
    fc.assert(
      fc.property(vector(24), vector(3), vector(8), (matrix, inside, room) => {
        const values = Float64Array.from(
          times(matrix, 3, inside),
          (value, i) => value - 1 / 64 - Math.abs(room[i]),
        );
        const x = leastDistance({ matrix, atLeast: values }, 3);
        expect(x).toBeDefined();
        if (x === undefined) return;
        expect(norm(x)).toBeLessThanOrEqual(norm(inside) * (1 + 1e-9));
        times(matrix, 3, x).forEach((value, i) => {
          const size = Math.abs(values[i]) + norm(matrix.subarray(3 * i, 3 * i + 3)) * norm(x);
          expect(value).toBeGreaterThanOrEqual(values[i] - 1e-9 * size);
        });
      }),
    );
  });

  it("finds none where a constraint meets its opposite with a gap between them", () => {
    fc.assert(
      fc.property(vector(6), vector(2), fc.integer({ min: -6, max: 3 }), (matrix, atLeast, exponent) => {
        fc.pre(norm(matrix.subarray(0, 3)) > 0);
        const opposed = Float64Array.of(...matrix, ...matrix.subarray(0, 3).map((g) => -g));
        const values = Float64Array.of(...atLeast, 10 ** exponent - atLeast[0]);
        expect(leastDistance({ matrix: opposed, atLeast: values }, 3)).toBeUndefined();
      }),
    );
  });

  it("repairs what rounding leaves in a wedge of 1e-4", () => {
    const matrix = Float64Array.of(1, 1e-4, -1, 1e-4);
    const atLeast = Float64Array.of(1, 1);
    const x = leastDistance({ matrix, atLeast }, 2);
    expect(x?.[0]).toBeCloseTo(0, 8);
    expect(x?.[1]).toBeCloseTo(1e4, 8);
  });

  it("stays at zero where zero is allowed", () => {
    const x = leastDistance({ matrix: Float64Array.of(1, 2), atLeast: Float64Array.of(-1) }, 2);
    expect(Array.from(x ?? [])).toEqual([0, 0]);
  });
});
