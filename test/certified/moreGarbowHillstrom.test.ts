import { describe, expect, it } from "vitest";
import { levenbergMarquardt } from "../../src/numeric/leastSquares/levenbergMarquardt.js";
import { differentiate } from "../../src/verification/dual.js";
import { hockSchittkowskiProblems } from "./hockSchittkowskiProblems.js";
import { mghModels } from "./mghModels.js";
import { mghProblems } from "./mghProblems.js";

const OPTIONS = { maxIterations: 1000 };

/** Freudenstein & Roth have a local minimum of 48.98… that this start leads to; Moré et al. document it. */
const LOCAL = 2;

const sumOfSquares = (
  residuals: (x: Float64Array, out: Float64Array) => void,
  count: number,
  x: ArrayLike<number>,
) => {
  const out = new Float64Array(count);
  residuals(Float64Array.from(x), out);
  return out.reduce((sum, r) => sum + r * r, 0);
};

describe.each(mghProblems)("levenbergMarquardt, Moré, Garbow & Hillstrom 1981: $number $name", (problem) => {
  const { number, residualCount, start, bounded } = problem;
  const model = differentiate(mghModels[number]);

  it("the formula (from memory) has the start value of the collection (computed from its source)", () => {
    const value = sumOfSquares(model.residuals, residualCount, start);
    expect(Math.abs(value / problem.startValue - 1)).toBeLessThan(1e-12);
  });

  it("reaches the optimum (seen to 4–8 digits; computed by multi-start to the others)", () => {
    const result = levenbergMarquardt({ residualCount, start, ...model }, OPTIONS);
    expect(result.converged).toBe(true);
    const squares = 2 * result.cost;
    if (number !== LOCAL)
      expect(Math.abs(squares - problem.optimum)).toBeLessThan(1e-4 * problem.optimum + 1e-15);
    expect(Math.abs(squares - problem.found)).toBeLessThan(1e-8 * problem.found + 1e-15);
  });

  if (bounded !== undefined) {
    it("reaches the optimum within the bounds of Gay 1984, and never leaves them", () => {
      const visited: Float64Array[] = [];
      const result = levenbergMarquardt(
        {
          residualCount,
          start,
          lower: bounded.lower,
          upper: bounded.upper,
          jacobian: model.jacobian,
          residuals: (x, out) => {
            visited.push(x.slice());
            model.residuals(x, out);
          },
        },
        OPTIONS,
      );
      expect(result.converged).toBe(true);
      const squares = 2 * result.cost;
      expect(Math.abs(squares - bounded.optimum)).toBeLessThan(1e-4 * bounded.optimum + 1e-15);
      expect(Math.abs(squares - bounded.found)).toBeLessThan(1e-8 * bounded.found + 1e-15);
      for (const x of visited) {
        x.forEach((value, j) => {
          expect(value).toBeGreaterThanOrEqual(bounded.lower[j]);
          expect(value).toBeLessThanOrEqual(bounded.upper[j]);
        });
      }
    });
  }
});

describe.each(hockSchittkowskiProblems)(
  "levenbergMarquardt, Hock & Schittkowski 1981 ($confidence): $name",
  (problem) => {
    const { residualCount, start, lower, upper, local } = problem;
    const model = differentiate(problem.model);

    it("has the published value at the start", () => {
      expect(sumOfSquares(model.residuals, residualCount, start)).toBeCloseTo(problem.startValue, 9);
    });

    it(local ? "reaches the optimum or the documented local one" : "reaches the optimum", () => {
      const result = levenbergMarquardt({ residualCount, start, lower, upper, ...model }, OPTIONS);
      expect(result.converged).toBe(true);
      const isLocal = local !== undefined && Math.abs(2 * result.cost - local.optimum) < 1e-3;
      const target = isLocal ? local : problem;
      expect(2 * result.cost).toBeCloseTo(target.optimum, isLocal ? 3 : 9);
      target.x.forEach((value, j) => {
        expect(result.x[j]).toBeCloseTo(value, isLocal ? 3 : 7);
      });
    });
  },
);
