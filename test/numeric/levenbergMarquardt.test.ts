import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Box } from "../../src/numeric/leastSquares/box.js";
import {
  type LeastSquaresProblem,
  levenbergMarquardt,
} from "../../src/numeric/leastSquares/levenbergMarquardt.js";
import { nnls } from "../../src/numeric/leastSquares/nnls.js";
import { refusal } from "../support/refusal.js";
import { entry, vector } from "./arbitraries.js";
import { norm, times, transposed } from "./matrices.js";

const sum = (values: ArrayLike<number>) => Array.from(values).reduce((total, value) => total + value, 0);

const columns = 4;
const rows = 7;

/** r = exp(−Ax) − t: smooth, not linear, and like a film that gets darker. */
const fading = (matrix: Float64Array, target: Float64Array) => ({
  residualCount: rows,
  residuals: (x: Float64Array, out: Float64Array) => {
    times(matrix, columns, x).forEach((value, i) => {
      out[i] = Math.exp(-value) - target[i];
    });
  },
  jacobian: (x: Float64Array, out: Float64Array) => {
    times(matrix, columns, x).forEach((value, i) => {
      for (let j = 0; j < columns; j++) out[i * columns + j] = -Math.exp(-value) * matrix[i * columns + j];
    });
  },
});

type Limited = LeastSquaresProblem & Box;

const problem: fc.Arbitrary<Limited> = fc
  .record({
    matrix: vector(rows * columns).map((values) => values.map((value) => value / 3)),
    target: vector(rows).map((values) => values.map(Math.abs)),
    start: vector(columns),
    lower: vector(columns),
    width: vector(columns).map((values) => values.map(Math.abs)),
    room: entry.map(Math.abs),
  })
  .map(({ matrix, target, start, lower, width, room }) => ({
    ...fading(matrix, target),
    start,
    lower,
    upper: lower.map((bound, j) => bound + width[j]),
    sumAtMost: sum(lower) + room,
  }));

/** A point that rounding keeps this near to a limit touches it. */
const TOUCH = 1e-12;

/** Jᵀr less what the limits that x touches can carry, relative to its terms. */
function uncarried(limits: Limited, x: Float64Array): number {
  const residual = new Float64Array(rows);
  const jacobian = new Float64Array(rows * columns);
  limits.residuals(x, residual);
  limits.jacobian(x, jacobian);
  const slope = Float64Array.from(times(transposed(jacobian, columns), rows, residual));
  const normals: number[] = [];
  x.forEach((value, j) => {
    const unit = Array.from({ length: columns }, (_, k) => (k === j ? 1 : 0));
    if (value <= limits.lower[j] + TOUCH) normals.push(...unit);
    if (value >= limits.upper[j] - TOUCH) normals.push(...unit.map((entryOf) => -entryOf));
  });
  if (sum(x) >= limits.sumAtMost - TOUCH) normals.push(...x.map(() => -1));
  const count = normals.length / columns;
  return (
    nnls(transposed(normals, columns), slope, columns, count).residualNorm / (norm(residual) * norm(jacobian))
  );
}

describe("levenbergMarquardt", () => {
  it("never asks for an x outside the box or above the sum, and ends where no step within leads down", () => {
    let converged = 0;
    fc.assert(
      fc.property(problem, (limits) => {
        const visited: Float64Array[] = [];
        const result = levenbergMarquardt({
          ...limits,
          residuals: (x, out) => {
            visited.push(x.slice());
            limits.residuals(x, out);
          },
        });
        for (const x of visited) {
          x.forEach((value, j) => {
            expect(value).toBeGreaterThanOrEqual(limits.lower[j]);
            expect(value).toBeLessThanOrEqual(limits.upper[j]);
          });
          expect(sum(x)).toBeLessThanOrEqual(limits.sumAtMost);
        }
        expect(result.evaluations).toBe(visited.length);
        expect(visited).toContainEqual(result.x);
        // Gauss–Newton may creep where the residuals are large; it must then say so.
        if (!result.converged) expect(result.stopReason).toBe("iteration-limit");
        else expect(uncarried(limits, result.x)).toBeLessThan(1e-6);
        converged += Number(result.converged);
      }),
      { numRuns: 300 },
    );
    expect(converged).toBeGreaterThan(290);
  });

  it("finds an x again from residuals that vanish there", () => {
    fc.assert(
      fc.property(vector(rows * columns), vector(columns), (raw, hidden) => {
        const matrix = raw.map((value) => value / 9);
        for (let j = 0; j < columns; j++) matrix[j * columns + j] += 2;
        const goal = hidden.map((value) => Math.abs(value) / 4);
        const target = Float64Array.from(times(matrix, columns, goal), (value) => Math.exp(-value));
        const result = levenbergMarquardt({
          ...fading(matrix, target),
          start: new Float64Array(columns).fill(0.3),
          lower: new Float64Array(columns),
        });
        expect(result.converged).toBe(true);
        expect(result.cost).toBeLessThan(1e-16);
        result.x.forEach((value, j) => {
          expect(value).toBeCloseTo(goal[j], 6);
        });
      }),
    );
  });

  it("puts an x that a bound holds back on the bound itself, not a rounding beside it", () => {
    const decimal = fc.integer({ min: -999, max: 999 }).map((value) => value / 1000);
    const decimals = fc.array(decimal, { minLength: 3, maxLength: 3 });
    fc.assert(
      fc.property(decimals, decimals, decimals, (start, ends, others) => {
        const lower = ends.map((value, j) => Math.min(value, others[j]));
        const upper = ends.map((value, j) => Math.max(value, others[j]));
        const { x } = levenbergMarquardt({
          residualCount: 3,
          start,
          lower,
          upper,
          residuals: ([a, b, c], out) => out.set([a + b / 8 - 3, b + 3, c + a / 8 - 3]),
          jacobian: (_, out) => out.set([1, 1 / 8, 0, 0, 1, 0, 1 / 8, 0, 1]),
        });
        expect(Array.from(x)).toEqual([upper[0], lower[1], upper[2]]);
      }),
    );
  });

  it("moves a start outside the box to the nearest point in it", () => {
    let first: number[] | undefined;
    levenbergMarquardt({
      residualCount: 1,
      start: [5, 0.5, 0],
      upper: [2, 2, 2],
      lower: [0, 0, 0],
      sumAtMost: 1.5,
      residuals: (x, out) => {
        first ??= Array.from(x);
        out[0] = 1 + x[0];
      },
      jacobian: (_, out) => out.set([1, 0, 0]),
    });
    // By hand: (5, 0.5, 0) − μ clamped, with μ = 3.5.
    expect(first?.map((value) => Math.round(value * 1e12) / 1e12)).toEqual([1.5, 0, 0]);
  });

  describe("names why it stopped", () => {
    const line = {
      residualCount: 2,
      start: [0],
      residuals: ([x]: Float64Array, out: Float64Array) => out.set([x - 1, x - 3]),
      jacobian: (_: Float64Array, out: Float64Array) => out.set([1, 1]),
    };

    it("gradient: the residual is normal to all that a step could change", () => {
      expect(levenbergMarquardt(line)).toMatchObject({ stopReason: "gradient", converged: true });
    });

    it("cost: the decrease is small, predicted and found", () => {
      const result = levenbergMarquardt(line, { gradientTolerance: 0, costTolerance: 1e-6 });
      expect(result).toMatchObject({ stopReason: "cost", converged: true });
    });

    it("cost: what a step promises is less than rounding shows, whatever the tolerances", () => {
      // Nothing but rounding is left at the end: no tolerance could be met, and no step be told from another.
      const bent = {
        residualCount: 2,
        start: [0.3],
        residuals: ([x]: Float64Array, out: Float64Array) =>
          out.set([Math.exp(x) - 1e4, 1e4 * Math.sin(x) - 3]),
        jacobian: ([x]: Float64Array, out: Float64Array) => out.set([Math.exp(x), 1e4 * Math.cos(x)]),
      };
      const none = { gradientTolerance: 0, costTolerance: 0, stepTolerance: 0, zeroTolerance: 0 };
      const { stopReason, iterations, x } = levenbergMarquardt(bent, none);
      expect(stopReason).toBe("cost");
      expect(iterations).toBeLessThan(40);
      const slope =
        Math.exp(x[0]) * (Math.exp(x[0]) - 1e4) + 1e4 * Math.cos(x[0]) * (1e4 * Math.sin(x[0]) - 3);
      expect(Math.abs(slope) / 1e8).toBeLessThan(1e-9);
    });

    it("step: the step is small against x", () => {
      const far = {
        ...line,
        start: [1e6],
        residuals: ([x]: Float64Array, out: Float64Array) => out.set([x - 1e6, x - 1e6 - 1]),
      };
      const result = levenbergMarquardt(far, { stepTolerance: 1e-3, gradientTolerance: 0, costTolerance: 0 });
      expect(result).toMatchObject({ stopReason: "step", converged: true, iterations: 1 });
    });

    it("zero-residual: nothing is left of it", () => {
      const result = levenbergMarquardt({
        residualCount: 1,
        start: [1],
        residuals: ([x], out) => out.set([x]),
        jacobian: (_, out) => out.set([1]),
      });
      expect(result).toMatchObject({ stopReason: "zero-residual", converged: true });
      expect(Math.abs(result.x[0])).toBeLessThan(1e-15);
    });

    it("iteration-limit", () => {
      expect(levenbergMarquardt(line, { maxIterations: 0 })).toMatchObject({
        stopReason: "iteration-limit",
        converged: false,
        iterations: 0,
        evaluations: 1,
        cost: 5,
      });
    });

    it("stalled: the Jacobian has the wrong sign, so no step leads down", () => {
      const wrong = {
        ...line,
        jacobian: (_: Float64Array, out: Float64Array) => out.set([-1, -1]),
        start: [7],
      };
      expect(levenbergMarquardt(wrong)).toMatchObject({ stopReason: "stalled", converged: false });
    });

    it("not-finite: at the start, or in the Jacobian", () => {
      const nowhere = { ...line, residuals: (_: Float64Array, out: Float64Array) => out.fill(Number.NaN) };
      expect(levenbergMarquardt(nowhere)).toMatchObject({ stopReason: "not-finite", converged: false });
      const steep = { ...line, jacobian: (_: Float64Array, out: Float64Array) => out.fill(Number.NaN) };
      expect(levenbergMarquardt(steep)).toMatchObject({ stopReason: "not-finite", converged: false });
    });
  });

  it("walks round places where the residuals do not exist", () => {
    const result = levenbergMarquardt({
      residualCount: 1,
      start: [100],
      residuals: ([x], out) => out.set([Math.log(x) - 1]),
      jacobian: ([x], out) => out.set([1 / x]),
    });
    expect(result.converged).toBe(true);
    expect(result.x[0]).toBeCloseTo(Math.E, 8);
  });

  it("shares between two unknowns that do the same, instead of setting one against the other", () => {
    const result = levenbergMarquardt({
      residualCount: 2,
      start: [0, 0],
      residuals: ([a, b], out) => out.set([a + b - 2, 2 * (a + b) - 5]),
      jacobian: (_, out) => out.set([1, 1, 2, 2]),
    });
    expect(result.converged).toBe(true);
    expect(result.x[0]).toBeCloseTo(1.2, 6);
    expect(result.x[1]).toBeCloseTo(1.2, 6);
  });

  it("refuses a start that is no list of finite numbers, no residuals, and an empty box", () => {
    const call = (change: Partial<LeastSquaresProblem>) =>
      refusal(() =>
        levenbergMarquardt({
          residualCount: 1,
          start: [0],
          residuals: () => {},
          jacobian: () => {},
          ...change,
        }),
      );
    expect(call({ start: [Number.NaN] })).toMatchObject({ code: "not-finite", path: "start[0]" });
    expect(call({ start: [] })).toMatchObject({ code: "wrong-length", path: "start" });
    expect(call({ residualCount: 0 })).toMatchObject({ code: "out-of-range", path: "residualCount" });
    expect(call({ lower: [1], upper: [0] })).toMatchObject({ code: "out-of-range", path: "lower[0]" });
  });
});
