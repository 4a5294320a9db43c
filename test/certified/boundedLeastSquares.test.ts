import { describe, expect, it } from "vitest";
import { boxConstraints, createBox } from "../../src/numeric/leastSquares/box.js";
import { constrainedLeastSquares } from "../../src/numeric/leastSquares/constrainedLeastSquares.js";
import { boundedLeastSquaresProblems } from "./boundedLeastSquaresProblems.js";

describe("constrainedLeastSquares, bounded problems of SciPy's tests", () => {
  it.each(boundedLeastSquaresProblems)("$note ($confidence)", (problem) => {
    const { rows, columns, matrix, rightHandSide, lower, upper, x } = problem;
    const result = constrainedLeastSquares(
      { matrix: Float64Array.from(matrix), rightHandSide: Float64Array.from(rightHandSide), rows, columns },
      boxConstraints(createBox({ lower, upper }, columns)),
    );
    expect(result.status).toBe("optimal");
    x.forEach((expected, j) => {
      expect(Math.abs(result.x[j] - expected)).toBeLessThanOrEqual(1e-13 * (1 + Math.abs(expected)));
    });
  });
});

describe("constrainedLeastSquares, Lawson & Hanson 1974 ch. 23 (from memory; follows by hand)", () => {
  it("fits a line that must not fall, nor be below 0 at 0, nor above 1 at 1", () => {
    const t = [0.25, 0.5, 0.5, 0.8];
    const w = [0.5, 0.6, 0.7, 1.2];
    const result = constrainedLeastSquares(
      {
        matrix: Float64Array.from(t.flatMap((at) => [at, 1])),
        rightHandSide: Float64Array.from(w),
        rows: 4,
        columns: 2,
      },
      {
        matrix: Float64Array.of(1, 0, 0, 1, -1, -1),
        atLeast: Float64Array.of(0, 0, -1),
      },
    );
    expect(result.status).toBe("optimal");
    expect(result.active).toEqual([2]);
    expect(result.x[0]).toBeCloseTo(0.685 / 1.1025, 14);
    expect(result.x[0]).toBeCloseTo(0.621, 3);
    expect(result.x[1]).toBeCloseTo(0.379, 3);
  });
});
