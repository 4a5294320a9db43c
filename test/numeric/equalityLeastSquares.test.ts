import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { equalityLeastSquares } from "../../src/numeric/leastSquares/equalityLeastSquares.js";
import { vector } from "./arbitraries.js";
import { gradient, times, transposed } from "./matrices.js";

describe("equalityLeastSquares", () => {
  it("holds the equalities, and its gradient is Aᵀμ", () => {
    fc.assert(
      fc.property(
        fc
          .nat({ max: 4 })
          .chain((count) => fc.tuple(vector(24), vector(6), vector(4 * count), vector(count))),
        ([e, f, a, b]) => {
          for (let j = 0; j < 4; j++) e[j * 5] += 11;
          for (let i = 0; i < b.length; i++) a[i * 5] += 13;
          const solution = equalityLeastSquares(
            { matrix: e.slice(), rightHandSide: f, rows: 6, columns: 4 },
            a.slice(),
            b,
          );
          expect(solution).toBeDefined();
          if (solution === undefined) return;
          const { x, multipliers } = solution;
          times(a, 4, x).forEach((value, i) => {
            expect(value).toBeCloseTo(b[i], 11);
          });
          const pulls = b.length === 0 ? [0, 0, 0, 0] : times(transposed(a, 4), b.length, multipliers);
          gradient(e, f, x).forEach((slope, j) => {
            expect(slope).toBeCloseTo(pulls[j], 9);
          });
        },
      ),
    );
  });

  it.each([
    ["twice the same row", [1, 2, 3, 1, 2, 3]],
    ["the same row but for 1e-9", [1, 2, 3, 1, 2, 3 + 1e-9]],
    ["a row and its opposite", [1, 2, 3, -1, -2, -3]],
    ["a row of zeros", [0, 0, 0, 1, 2, 3]],
  ])("refuses %s", (_, rows) => {
    const eye = Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);
    const f = Float64Array.of(1, 1, 1);
    expect(
      equalityLeastSquares(
        { matrix: eye, rightHandSide: f, rows: 3, columns: 3 },
        Float64Array.from(rows),
        [1, 1],
      ),
    ).toBeUndefined();
  });

  it("refuses more rows than unknowns", () => {
    expect(
      equalityLeastSquares(
        { matrix: Float64Array.of(1), rightHandSide: Float64Array.of(1), rows: 1, columns: 1 },
        Float64Array.of(1, 2),
        [1, 2],
      ),
    ).toBeUndefined();
  });
});
