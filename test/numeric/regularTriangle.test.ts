import { describe, expect, it } from "vitest";
import { solveUpper } from "../../src/numeric/linear/householder.js";
import { regularTriangle } from "../../src/numeric/linear/regularTriangle.js";

const solve = (matrix: readonly number[], right: readonly number[], rows: number, columns: number) => {
  const { factor, diagonal, target, scale } = regularTriangle(
    Float64Array.from(matrix),
    Float64Array.from(right),
    rows,
    columns,
  );
  const z = Float64Array.from(target);
  solveUpper(factor, columns, diagonal, z);
  return { x: Array.from(z, (value, j) => value * scale[j]), scale };
};

describe("regularTriangle", () => {
  it("leaves a matrix that is regular as it is, however badly conditioned", () => {
    // Two columns 1e−6 apart: x = (1, 1) to the digits that are left, where √ε·I would move it by 1e−4.
    const { x } = solve([1, 1, 0, 1e-6], [2, 1e-6], 2, 2);
    for (const value of x) expect(value).toBeCloseTo(1, 8);
  });

  it("shares between columns that are the same, in their own units", () => {
    const { x } = solve([1, 1, 1, 1], [2, 2], 2, 2);
    for (const value of x) expect(value).toBeCloseTo(1, 6);
    // The second column is ten times as long: a tenth of it does as much.
    const scaled = solve([1, 10, 1, 10], [2, 2], 2, 2).x;
    expect(scaled[0]).toBeCloseTo(1, 6);
    expect(scaled[1]).toBeCloseTo(0.1, 6);
  });

  it("brings columns to unit length, a column of zeros to nothing", () => {
    const { x, scale } = solve([3, 0, 4, 0], [6, 8], 2, 2);
    expect(scale).toEqual(Float64Array.of(1 / 5, 1));
    expect(x[0]).toBeCloseTo(2, 8);
    expect(x[1]).toBeCloseTo(0, 8);
  });

  it("takes fewer rows than columns: of all minimisers the one with short z", () => {
    const { x } = solve([1, 1], [2], 1, 2);
    for (const value of x) expect(value).toBeCloseTo(1, 6);
  });
});
