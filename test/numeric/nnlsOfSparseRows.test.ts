import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nnls } from "../../src/numeric/leastSquares/nnls.js";
import { nnlsOfSparseRows } from "../../src/numeric/leastSquares/nnlsOfSparseRows.js";
import { refusal } from "../support/refusal.js";

const entry = fc.oneof(
  { weight: 3, arbitrary: fc.constant(0) },
  fc.integer({ min: -3000, max: 3000 }).map((thousandths) => thousandths / 1000),
);

const problems = fc
  .tuple(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 8 }))
  .chain(([rows, columns]) =>
    fc.record({
      rows: fc.constant(rows),
      columns: fc.constant(columns),
      a: fc.array(entry, { minLength: rows * columns, maxLength: rows * columns }),
      b: fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: rows, maxLength: rows }),
    }),
  );

describe("nnlsOfSparseRows", () => {
  it("leaves the same residual as nnls, with x ≥ 0, whatever the shape and rank", () => {
    fc.assert(
      fc.property(problems, ({ rows, columns, a, b }) => {
        const [matrix, right] = [Float64Array.from(a), Float64Array.from(b)];
        const ours = nnlsOfSparseRows(matrix, right, rows, columns);
        const theirs = nnls(matrix, right, rows, columns);
        const scale = 1 + Math.hypot(...b);
        expect(ours.x.every((value) => value >= 0)).toBe(true);
        expect(Math.abs(ours.residualNorm - theirs.residualNorm)).toBeLessThanOrEqual(1e-9 * scale);
        const residual = b.map((value, i) =>
          ours.x.reduce((rest, x, j) => rest - x * a[i * columns + j], value),
        );
        expect(Math.abs(Math.hypot(...residual) - ours.residualNorm)).toBeLessThanOrEqual(1e-9 * scale);
      }),
      { numRuns: 500, seed: 12 },
    );
  });

  it("gives the exact answer of a ladder whose tints share one white", () => {
    // Three toners in white, each row a tint: K of the mix is known without error.
    const truth = [0.01, 3, 1.5, 0.7];
    const shares = [1, 2, 3].flatMap((j) => [0.1, 0.5, 1].map((share) => ({ j, share })));
    const a = Float64Array.from(
      shares.flatMap(({ j, share }) => truth.map((_, c) => (c === 0 ? 1 - share : c === j ? share : 0))),
    );
    const b = Float64Array.from(shares, ({ j, share }) => (1 - share) * truth[0] + share * truth[j]);
    const { x, residualNorm, iterations } = nnlsOfSparseRows(a, b, shares.length, 4);
    x.forEach((value, j) => {
      expect(value).toBeCloseTo(truth[j], 12);
    });
    expect(residualNorm).toBeLessThan(1e-14);
    // All entries are positive: nothing is exchanged, where `nnls` lets them in one by one.
    expect(iterations).toBe(1);
    expect(nnls(a, b, shares.length, 4).iterations).toBeGreaterThan(3);
  });

  it("holds at zero what would be negative, in a second round", () => {
    const { x, iterations } = nnlsOfSparseRows(Float64Array.of(1, 0, 0, 1), Float64Array.of(3, -1), 2, 2);
    expect(Array.from(x)).toEqual([3, 0]);
    expect(iterations).toBe(2);
  });

  it.each([1e-5, 1e-7, 0])("leaves to nnls columns that are %d apart, one of three pairs", (apart) => {
    const a = Float64Array.of(1, 1, 0, 1, 1 + apart, 0, 0, 0, 1);
    const b = Float64Array.of(2, 2 + apart, 5);
    expect(nnlsOfSparseRows(a, b, 3, 3)).toEqual(nnls(a, b, 3, 3));
  });

  it("refuses what is not finite, and lengths that do not fit, with their places", () => {
    const one = Float64Array.of(1, 2);
    expect(refusal(() => nnlsOfSparseRows(Float64Array.of(1, Number.NaN), one, 2, 1))).toEqual({
      code: "not-finite",
      path: "a[1]",
    });
    expect(refusal(() => nnlsOfSparseRows(one, Float64Array.of(1), 2, 1))).toEqual({
      code: "wrong-length",
      path: "b",
    });
  });
});
