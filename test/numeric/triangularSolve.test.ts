import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  choleskyInPlace,
  solveLower,
  solveLowerTransposed,
} from "../../src/numeric/linear/triangularSolve.js";
import { vector } from "./arbitraries.js";

describe("choleskyInPlace", () => {
  it("factorises a block inside an array, and neither reads nor writes above its diagonal (by hand)", () => {
    const array = Float64Array.of(9, 4, 1e30, 2, 10, 9);
    expect(choleskyInPlace(array, 1, 2)).toBe(true);
    expect(array).toEqual(Float64Array.of(9, 2, 1e30, 1, 3, 9));
  });

  it("judges a pivot by its own diagonal entry, whatever the units", () => {
    expect(choleskyInPlace(Float64Array.of(1e-20, 0, 0, 1), 0, 2)).toBe(true);
    expect(choleskyInPlace(Float64Array.of(1, 0, 0, 1e-20), 0, 2)).toBe(true);
    // A pivot of 1e−16 of its entry is what rounding leaves of 0, at any scale.
    for (const unit of [4 ** -16, 1, 4 ** 16]) {
      const nearly = Float64Array.of(unit, 0, unit, unit * (1 + 2 ** -52));
      expect(choleskyInPlace(nearly, 0, 2), `${unit}`).toBe(false);
    }
    expect(choleskyInPlace(Float64Array.of(0), 0, 1)).toBe(false);
    expect(choleskyInPlace(Float64Array.of(-1), 0, 1)).toBe(false);
  });
});

describe("solves with a lower triangle inside an array", () => {
  it("undo products with it, for one right-hand side and for several", () => {
    fc.assert(
      fc.property(vector(9), vector(9), fc.integer({ min: 1, max: 3 }), (entries, values, width) => {
        const size = 3;
        const lower = new Float64Array(2 + size * size);
        const at = (i: number, j: number) =>
          i === j ? 1 + Math.abs(entries[i * size + j]) : entries[i * size + j] / 9;
        for (let i = 0; i < size; i++) for (let j = 0; j <= i; j++) lower[2 + i * size + j] = at(i, j);
        const x = values.slice(0, size * width);
        const product = (transposed: boolean) => {
          const b = new Float64Array(1 + size * width);
          for (let i = 0; i < size; i++)
            for (let j = 0; j < size; j++) {
              const entry = transposed ? (j >= i ? at(j, i) : 0) : j <= i ? at(i, j) : 0;
              for (let k = 0; k < width; k++) b[1 + i * width + k] += entry * x[j * width + k];
            }
          return b;
        };
        const [forth, back] = [product(false), product(true)];
        solveLower(lower.subarray(2), size, forth, 1, width);
        solveLowerTransposed(lower.subarray(2), size, back, 1, width);
        x.forEach((value, i) => {
          expect(forth[1 + i]).toBeCloseTo(value, 9);
          expect(back[1 + i]).toBeCloseTo(value, 9);
        });
      }),
    );
  });
});
