import { describe, expect, it } from "vitest";
import { nnls } from "../../src/numeric/leastSquares/nnls.js";
import { type NnlsProblem, nnlsProblems } from "./nnlsProblems.js";

const column = ({ matrix, rows, columns }: NnlsProblem, j: number) =>
  Array.from({ length: rows }, (_, i) => matrix[i * columns + j]);

const norm = (v: readonly number[]) => Math.hypot(...v);
const dot = (u: readonly number[], v: readonly number[]) =>
  u.reduce((sum, value, i) => sum + value * v[i], 0);

const residualOf = ({ matrix, rightHandSide, columns }: NnlsProblem, x: ArrayLike<number>) =>
  rightHandSide.map(
    (b, i) => b - Array.from(x).reduce((sum, value, j) => sum + matrix[i * columns + j] * value, 0),
  );

describe.each(nnlsProblems)("nnls, published problem (seen): $name", (problem) => {
  const { rows, columns, matrix, rightHandSide, x: expected, tolerance } = problem;
  const result = nnls(Float64Array.from(matrix), Float64Array.from(rightHandSide), rows, columns);
  const residual = residualOf(problem, result.x);

  it("ends as optimal", () => {
    expect(result.stopReason).toBe("optimal");
    expect(result.x.every((value) => value >= 0)).toBe(true);
  });

  it("meets the Kuhn–Tucker conditions", () => {
    const terms = result.x.reduce(
      (sum, value, j) => sum + norm(column(problem, j)) * value,
      norm(rightHandSide),
    );
    for (let j = 0; j < columns; j++) {
      const gradient = dot(column(problem, j), residual);
      const allowed = 1e-12 * norm(column(problem, j)) * terms;
      expect(gradient).toBeLessThanOrEqual(allowed);
      if (result.x[j] > 0) expect(gradient).toBeGreaterThanOrEqual(-allowed);
    }
  });

  it("tells the norm of its residual", () => {
    expect(Math.abs(result.residualNorm - norm(residual))).toBeLessThanOrEqual(1e-12 * norm(rightHandSide));
  });

  if (expected !== undefined && problem.unique) {
    it("gives the published x", () => {
      result.x.forEach((value, j) => {
        const allowed = tolerance.absolute + tolerance.relative * Math.abs(expected[j]);
        expect(Math.abs(value - expected[j])).toBeLessThanOrEqual(allowed);
      });
    });
  } else {
    it("leaves no larger residual than the published x (which is one of many)", () => {
      const published = expected === undefined ? 0 : norm(residualOf(problem, expected));
      expect(result.residualNorm).toBeLessThanOrEqual(published + 1e-7);
    });
  }

  const { residualSquares, gradient } = problem;
  if (residualSquares !== undefined) {
    it("gives the published sum of squares", () => {
      expect(result.residualNorm ** 2).toBeCloseTo(residualSquares, 12);
    });
  }
  if (gradient !== undefined) {
    it("gives the published gradient", () => {
      gradient.forEach((value, j) => {
        expect(dot(column(problem, j), residual)).toBeCloseTo(value, 12);
      });
    });
  }
});
