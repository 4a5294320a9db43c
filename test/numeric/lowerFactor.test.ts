import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { lowerFactor } from "../../src/numeric/linear/lowerFactor.js";
import { refusal } from "../support/refusal.js";

// Hundredths: squares of 1e-161 would only test what rounding leaves of numbers too small to square.
describe("lowerFactor", () => {
  it("multiplies back to a covariance of any rank", () => {
    const shape = fc
      .tuple(fc.integer({ min: 1, max: 7 }), fc.integer({ min: 0, max: 9 }))
      .chain(([size, causes]) =>
        fc
          .array(
            fc.integer({ min: -300, max: 300 }).map((n) => n / 100),
            {
              minLength: size * causes,
              maxLength: size * causes,
            },
          )
          .map((values) => ({ size, causes, values })),
      );
    fc.assert(
      fc.property(shape, ({ size, causes, values }) => {
        const product = (rows: ArrayLike<number>, inner: number) =>
          Float64Array.from({ length: size * size }, (_, at) => {
            const [i, k] = [Math.floor(at / size), at % size];
            let sum = 0;
            for (let c = 0; c < inner; c++) sum += rows[i * inner + c] * rows[k * inner + c];
            return sum;
          });
        const matrix = product(values, causes);
        const factor = lowerFactor(matrix, size);
        const back = product(factor, size);
        const largest = Math.max(1e-12, ...matrix);
        back.forEach((value, at) => {
          expect(Math.abs(value - matrix[at])).toBeLessThanOrEqual(1e-6 * largest);
        });
        factor.forEach((value, at) => {
          if (at % size > Math.floor(at / size)) expect(value).toBe(0);
        });
      }),
    );
  });

  it("is a matrix of zeros for no spread at all, and refuses what is not finite", () => {
    expect(Array.from(lowerFactor(new Float64Array(9), 3))).toEqual(new Array(9).fill(0));
    expect(refusal(() => lowerFactor(Float64Array.of(Number.NaN), 1))).toEqual({
      code: "not-finite",
      path: "matrix[0]",
    });
  });
});
