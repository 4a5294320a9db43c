import { describe, expect, it } from "vitest";
import { fitWithUnitPrior, leadingCovariance } from "../../src/numeric/fitWithUnitPrior.js";

/** y = a·u + noise of sd 1, u standard normal: everything is known in closed form. */
const line = (slopes: readonly number[], values: readonly number[]) => ({
  residualCount: values.length,
  start: [0],
  evaluate: (u: Float64Array, residual: Float64Array, jacobian?: Float64Array) => {
    values.forEach((value, i) => {
      residual[i] = slopes[i] * u[0] - value;
      if (jacobian) jacobian[i] = slopes[i];
    });
  },
});

describe("fitWithUnitPrior", () => {
  it("is the textbook posterior of a straight line: mean Σay/(1 + Σa²), variance 1/(1 + Σa²)", () => {
    const fit = fitWithUnitPrior(line([1, 2], [3, 4]));
    expect(fit.converged).toBe(true);
    expect(fit.u[0]).toBeCloseTo(11 / 6, 10);
    expect(leadingCovariance(fit, 1)[0]).toBeCloseTo(1 / 6, 12);
  });

  it("its cost and evidence are those of y ~ N(0, I + aaᵀ)", () => {
    const fit = fitWithUnitPrior(line([1, 2], [3, 4]));
    // yᵀ(I + aaᵀ)⁻¹y = |y|² − (a·y)²/(1 + |a|²); det(I + aaᵀ) = 1 + |a|².
    expect(fit.cost).toBeCloseTo(25 - 121 / 6, 10);
    expect(fit.logEvidence).toBeCloseTo(-(25 - 121 / 6 + Math.log(6)) / 2, 10);
  });

  it("finds the mode of a curved problem, where the gradient is zero", () => {
    const fit = fitWithUnitPrior({
      residualCount: 1,
      start: [0, 0],
      evaluate: (u, residual, jacobian) => {
        residual[0] = 10 * (Math.exp(u[0] + u[1]) - 4);
        jacobian?.fill(10 * Math.exp(u[0] + u[1]));
      },
    });
    const [a, b] = fit.u;
    expect(a).toBeCloseTo(b, 8);
    expect(100 * (Math.exp(a + b) - 4) * Math.exp(a + b) + a).toBeCloseTo(0, 2);
  });
});
