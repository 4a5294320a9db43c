import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { constrainedLeastSquares } from "../../src/numeric/leastSquares/constrainedLeastSquares.js";
import { createBoxedQuadratic } from "../../src/numeric/programmes/createBoxedQuadratic.js";
import { system } from "./arbitraries.js";
import { gradient, minus, norm, times, transposed } from "./matrices.js";

const problems = system({ maxRows: 9, maxColumns: 5 }).chain(({ rows, columns, matrix, rightHandSide }) =>
  fc.record({
    rows: fc.constant(rows),
    columns: fc.constant(columns),
    matrix: fc.constant(matrix),
    rightHandSide: fc.constant(rightHandSide),
    low: fc.array(fc.constantFrom(0, -0.5, -2), { minLength: columns, maxLength: columns }),
    high: fc.array(fc.constantFrom(0, 0.3, 1, 4, Number.POSITIVE_INFINITY), {
      minLength: columns,
      maxLength: columns,
    }),
    sumAtMost: fc.constantFrom(0, 0.4, 1.5, 20, Number.POSITIVE_INFINITY),
  }),
);

const gramOf = (matrix: Float64Array, columns: number) => {
  const t = transposed(matrix, columns);
  return Float64Array.from({ length: columns * columns }, (_, at) => {
    const [i, j] = [Math.floor(at / columns), at % columns];
    const rows = matrix.length / columns;
    let sum = 0;
    for (let r = 0; r < rows; r++) sum += t[i * rows + r] * t[j * rows + r];
    return sum;
  });
};

describe("createBoxedQuadratic against least squares under the same constraints", () => {
  it("keeps the limits and leaves no more of the squares", () => {
    fc.assert(
      fc.property(problems, ({ rows, columns, matrix, rightHandSide, low, high, sumAtMost }) => {
        const side = Float64Array.from(gradient(matrix, rightHandSide, new Float64Array(columns)), (g) => -g);
        const p = createBoxedQuadratic(columns)(gramOf(matrix, columns), side, { low, high, sumAtMost });
        p.forEach((value, i) => {
          expect(value).toBeGreaterThanOrEqual(low[i] - 1e-9);
          expect(value).toBeLessThanOrEqual(high[i] + 1e-9);
        });
        expect(p.reduce((sum, value) => sum + value, 0)).toBeLessThanOrEqual(sumAtMost + 1e-9);

        const row = (sign: number, at: number) =>
          Array.from({ length: columns }, (_, j) => (j === at || at < 0 ? sign : 0));
        const constraints: (readonly [readonly number[], number])[] = [
          ...low.map((value, i) => [row(1, i), value] as const),
          ...high.map((value, i) => [row(-1, i), -value] as const),
          [row(-1, -1), -sumAtMost] as const,
        ].filter(([, least]) => Number.isFinite(least));
        const { x, status } = constrainedLeastSquares(
          { matrix, rightHandSide, rows, columns },
          {
            matrix: Float64Array.from(constraints.flatMap(([values]) => values)),
            atLeast: Float64Array.from(constraints.map(([, least]) => least)),
          },
        );
        expect(status).toBe("optimal");
        const left = (at: ArrayLike<number>) => norm(minus(times(matrix, columns, at), rightHandSide)) ** 2;
        expect(left(p)).toBeLessThanOrEqual(left(x) + 1e-6 * (1 + norm(rightHandSide) ** 2));
      }),
      { numRuns: 2000, seed: 34 },
    );
  });

  it("stays where it is when there is nowhere to go, and where every way leads uphill", () => {
    const gram = Float64Array.of(1, 0, 0, 1);
    const nowhere = { low: [0, 0], high: [0, 0], sumAtMost: 5 };
    expect(createBoxedQuadratic(2)(gram, Float64Array.of(3, 3), nowhere)).toEqual(Float64Array.of(0, 0));
    const up = { low: [0, 0], high: [5, 5], sumAtMost: 5 };
    expect(createBoxedQuadratic(2)(gram, Float64Array.of(-3, -1), up)).toEqual(Float64Array.of(0, 0));
  });
});
