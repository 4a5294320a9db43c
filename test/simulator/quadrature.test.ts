import { describe, expect, it } from "vitest";
import { gauss, legendre, type Rule, radau } from "./quadrature.js";

const integral = ({ nodes, weights }: Rule, power: number) =>
  nodes.reduce((sum, x, i) => sum + weights[i] * x ** power, 0);

describe("quadrature", () => {
  it.each([2, 3, 4, 8])("Gauss with %i nodes is exact to degree 2n − 1, and no further", (count) => {
    const rule = gauss(count, 0, 1);
    for (let power = 0; power < 2 * count; power++) {
      expect(integral(rule, power)).toBeCloseTo(1 / (power + 1), 12);
    }
    expect(Math.abs(integral(rule, 2 * count) - 1 / (2 * count + 1))).toBeGreaterThan(1e-11);
  });

  it.each([2, 3, 4, 8])("Radau with %i nodes has the upper end and is exact to degree 2n − 2", (count) => {
    const rule = radau(count, 0.25, 1);
    expect(rule.nodes.at(-1)).toBe(1);
    for (let power = 0; power < 2 * count - 1; power++) {
      expect(integral(rule, power)).toBeCloseTo((1 - 0.25 ** (power + 1)) / (power + 1), 12);
    }
  });

  it("P₄ as in every table: (35x⁴ − 30x² + 3)/8", () => {
    const x = 0.3;
    expect(legendre(4, x)[4]).toBeCloseTo((35 * x ** 4 - 30 * x ** 2 + 3) / 8, 15);
  });
});
