import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { boxConstraints, createBox } from "../../src/numeric/leastSquares/box.js";
import { constrainedLeastSquares } from "../../src/numeric/leastSquares/constrainedLeastSquares.js";
import type { LinearConstraints } from "../../src/numeric/leastSquares/linearConstraints.js";
import { nnls } from "../../src/numeric/leastSquares/nnls.js";
import { refusal } from "../support/refusal.js";
import { type System, system, vector } from "./arbitraries.js";
import { columnNorms, gradient, norm, times, transposed } from "./matrices.js";

const constrained = fc
  .tuple(system({ maxRows: 8, maxColumns: 6 }), fc.nat({ max: 12 }))
  .chain(([problem, count]) =>
    fc.record({
      problem: fc.constant(problem),
      matrix: vector(count * problem.columns),
      atLeast: vector(count),
      /** Makes a constraint the double (1) or the opposite (−1) of the one before. */
      twins: fc.array(fc.constantFrom(0, 0, 0, 1, -1), { minLength: count, maxLength: count }),
    }),
  )
  .map(({ problem, matrix, atLeast, twins }) => {
    const { columns } = problem;
    for (let i = 1; i < atLeast.length; i++) {
      if (twins[i] === 0) continue;
      for (let j = 0; j < columns; j++) matrix[i * columns + j] = twins[i] * matrix[(i - 1) * columns + j];
      atLeast[i] = twins[i] * atLeast[i - 1];
    }
    return { problem, constraints: { matrix, atLeast } };
  });

const inUnitColumns = ({ matrix, columns }: System) =>
  columnNorms(matrix, columns).map((length) => (length > 0 ? 1 / length : 1));

const slack = ({ matrix, atLeast }: LinearConstraints, x: Float64Array) =>
  times(matrix, x.length, x).map((value, i) => value - atLeast[i]);

/** |hᵢ| + ‖gᵢ‖·(‖x‖ + ‖f‖) in units in which the columns of E have length 1. */
const allowance = (
  { matrix, atLeast }: LinearConstraints,
  units: number[],
  x: Float64Array,
  f: Float64Array,
) => {
  const reach = norm(x.map((value, j) => value / units[j])) + norm(f);
  return Array.from(atLeast, (bound, i) => {
    const normal = matrix.subarray(i * x.length, (i + 1) * x.length);
    return Math.abs(bound) + norm(normal.map((g, j) => g * units[j])) * reach;
  });
};

describe("constrainedLeastSquares", () => {
  it("meets every constraint to 1e-12, and its gradient is a sum of the normals of those it touches", () => {
    let optimal = 0;
    fc.assert(
      fc.property(constrained, ({ problem, constraints }) => {
        const { matrix, rightHandSide, rows, columns } = problem;
        const result = constrainedLeastSquares({ matrix, rightHandSide, rows, columns }, constraints);
        if (result.status === "infeasible") return;
        optimal++;
        expect(result.status).toBe("optimal");
        const allowed = allowance(constraints, inUnitColumns(problem), result.x, rightHandSide);
        const slacks = slack(constraints, result.x);
        const touched: number[] = [];
        slacks.forEach((value, i) => {
          expect(value).toBeGreaterThanOrEqual(-1e-12 * allowed[i]);
          if (value <= 1e-9 * allowed[i]) touched.push(i);
        });
        for (const i of result.active) expect(touched).toContain(i);

        const normals = touched.flatMap((i) =>
          Array.from(constraints.matrix.subarray(i * columns, (i + 1) * columns)),
        );
        const slope = Float64Array.from(gradient(matrix, rightHandSide, result.x));
        const outside = nnls(transposed(normals, columns), slope, columns, touched.length).residualNorm;
        expect(outside).toBeLessThan(1e-9 * (1 + norm(result.x)));
      }),
      { numRuns: 1000 },
    );
    expect(optimal).toBeGreaterThan(300);
  });

  it("calls infeasible what no x can satisfy: Farkas' multipliers prove it", () => {
    let proved = 0;
    fc.assert(
      fc.property(constrained, ({ problem, constraints }) => {
        const { matrix, rightHandSide, rows, columns } = problem;
        const result = constrainedLeastSquares({ matrix, rightHandSide, rows, columns }, constraints);
        if (result.status !== "infeasible") return;
        // u ≥ 0 with Gᵀu = 0 and hᵀu = 1.
        const count = constraints.atLeast.length;
        const dual = Float64Array.of(...transposed(constraints.matrix, columns), ...constraints.atLeast);
        const target = new Float64Array(columns + 1);
        target[columns] = 1;
        expect(nnls(dual, target, columns + 1, count).residualNorm).toBeLessThan(1e-7);
        proved++;
      }),
      { numRuns: 500 },
    );
    expect(proved).toBeGreaterThan(10);
  });

  it("gives the same x from any feasible start and with any order of the columns", () => {
    fc.assert(
      fc.property(system({ maxRows: 9, maxColumns: 5, tall: "tall" }), (problem) => {
        const { matrix, rightHandSide, rows, columns } = problem;
        for (let j = 0; j < columns; j++) matrix[j * columns + j] += 8;
        const box = createBox(
          { lower: new Float64Array(columns), upper: new Float64Array(columns).fill(0.3), sumAtMost: 0.5 },
          columns,
        );
        const constraints = boxConstraints(box);
        const plain = constrainedLeastSquares({ matrix, rightHandSide, rows, columns }, constraints);
        const start = new Float64Array(columns).fill(0.1);
        const elsewhere = constrainedLeastSquares({ matrix, rightHandSide, rows, columns }, constraints, {
          start,
        });
        const again = constrainedLeastSquares({ matrix, rightHandSide, rows, columns }, constraints, {
          start: plain.x,
          active: plain.active,
        });
        const reversed = matrix.map((_, k) => matrix[k + columns - 1 - 2 * (k % columns)]);
        const turned = constrainedLeastSquares(
          { matrix: reversed, rightHandSide, rows, columns },
          constraints,
        );
        plain.x.forEach((value, j) => {
          expect(elsewhere.x[j]).toBeCloseTo(value, 10);
          expect(again.x[j]).toBeCloseTo(value, 10);
          expect(turned.x[columns - 1 - j]).toBeCloseTo(value, 10);
        });
        expect(again.iterations).toBe(1);
      }),
    );
  });

  it("does not mind the units of x", () => {
    fc.assert(
      fc.property(
        system({ maxRows: 9, maxColumns: 4, tall: "tall" }),
        fc.array(fc.integer({ min: -27, max: 27 }), { minLength: 4, maxLength: 4 }),
        ({ matrix, rightHandSide, rows, columns }, exponents) => {
          for (let j = 0; j < columns; j++) matrix[j * columns + j] += 8;
          const units = exponents.slice(0, columns).map((exponent) => 2 ** exponent);
          const solve = (scaled: Float64Array, upper: number[]) =>
            constrainedLeastSquares(
              { matrix: scaled, rightHandSide, rows, columns },
              boxConstraints(createBox({ lower: new Float64Array(columns), upper }, columns)),
            ).x;
          const plain = solve(
            matrix,
            units.map(() => 0.1),
          );
          const other = solve(
            matrix.map((value, k) => value * units[k % columns]),
            units.map((unit) => 0.1 / unit),
          );
          other.forEach((value, j) => {
            expect(value * units[j]).toBeCloseTo(plain[j], 12);
          });
        },
      ),
    );
  });

  it("shares between two columns equal to 1e-15, with or without a constraint in the way", () => {
    const a = Float64Array.from(
      { length: 62 },
      (_, k) => (1 + (k % 4 === 1 ? 1e-15 : 0)) * (1 + Math.sin(k >> 1)),
    );
    const b = Float64Array.from({ length: 31 }, (_, i) => 2 * (1 + Math.sin(i)) + 1e-3 * Math.cos(5 * i));
    const solve = (upper: number) =>
      constrainedLeastSquares(
        { matrix: a, rightHandSide: b, rows: 31, columns: 2 },
        boxConstraints(createBox({ upper: [upper, 9] }, 2)),
      ).x;
    expect(Array.from(solve(9), (value) => Math.round(value * 100) / 100)).toEqual([1, 1]);
    expect(Array.from(solve(0.5), (value) => Math.round(value * 100) / 100)).toEqual([0.5, 1.5]);
  });

  it("holds a bound that is 1e-9 short of the minimiser", () => {
    const bound = 1 - 1e-9;
    const constraints = boxConstraints(createBox({ upper: [bound] }, 1));
    const result = constrainedLeastSquares(
      { matrix: Float64Array.of(1), rightHandSide: Float64Array.of(1), rows: 1, columns: 1 },
      constraints,
    );
    expect(result.active).toEqual([0]);
    expect(result.x[0]).toBeLessThanOrEqual(bound + 1e-15);
  });

  it("stays feasible at its iteration limit", () => {
    const eye = Float64Array.of(1, 0, 0, 1);
    const constraints = boxConstraints(createBox({ upper: [1, 1] }, 2));
    const result = constrainedLeastSquares(
      { matrix: eye, rightHandSide: Float64Array.of(5, 4), rows: 2, columns: 2 },
      constraints,
      {
        maxIterations: 1,
      },
    );
    expect(result.status).toBe("iteration-limit");
    expect(result.x[0]).toBeCloseTo(1, 15);
    expect(result.x[1]).toBeCloseTo(0.8, 15);
  });

  it("begins with active constraints that say the same twice", () => {
    // Nearest point to (3, 0) with x + y ≥ 4, said once and doubled: (3.5, 0.5).
    const twice = { matrix: Float64Array.of(1, 1, 2, 2), atLeast: Float64Array.of(4, 8) };
    const options = { start: Float64Array.of(4, 0), active: [0, 1] };
    const { x, status } = constrainedLeastSquares(
      { matrix: Float64Array.of(1, 0, 0, 1), rightHandSide: Float64Array.of(3, 0), rows: 2, columns: 2 },
      twice,
      options,
    );
    expect(status).toBe("optimal");
    expect(x[0]).toBeCloseTo(3.5, 12);
    expect(x[1]).toBeCloseTo(0.5, 12);
  });

  it("names no active constraint where it is infeasible", () => {
    const never = { matrix: Float64Array.of(1, -1), atLeast: Float64Array.of(1, 1) };
    expect(
      constrainedLeastSquares(
        { matrix: Float64Array.of(1), rightHandSide: Float64Array.of(0), rows: 1, columns: 1 },
        never,
      ),
    ).toEqual({
      x: Float64Array.of(0),
      status: "infeasible",
      active: [],
      iterations: 0,
    });
  });

  it("refuses wrong lengths and numbers that are not finite", () => {
    const eye = Float64Array.of(1, 0, 0, 1);
    const two = Float64Array.of(1, 2);
    const none = { matrix: new Float64Array(0), atLeast: new Float64Array(0) };
    const call = (constraints: LinearConstraints, f = two) =>
      constrainedLeastSquares({ matrix: eye, rightHandSide: f, rows: 2, columns: 2 }, constraints);
    expect(refusal(() => call(none, eye))).toMatchObject({ code: "wrong-length", path: "rightHandSide" });
    expect(
      refusal(() =>
        constrainedLeastSquares({ matrix: eye, rightHandSide: two, rows: 2, columns: 2 }, none, {
          start: [0, 0, 0],
        }),
      ),
    ).toMatchObject({
      code: "wrong-length",
      path: "start",
    });
    expect(refusal(() => call({ matrix: two, atLeast: two }))).toMatchObject({
      code: "wrong-length",
      path: "constraints.matrix",
    });
    expect(refusal(() => call({ matrix: two, atLeast: Float64Array.of(Number.NaN) }))).toMatchObject({
      code: "not-finite",
      path: "constraints.atLeast[0]",
    });
  });
});
