import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nnls } from "../../src/numeric/leastSquares/nnls.js";
import { createSubsetSearch } from "../../src/numeric/programmes/createSubsetSearch.js";
import { type System, system } from "./arbitraries.js";
import { gradient, minus, norm, times, transposed } from "./matrices.js";

const searchOf = ({ columns, matrix, rightHandSide }: System, mostSubsets?: number) => {
  const t = transposed(matrix, columns);
  const rows = rightHandSide.length;
  const gram = Float64Array.from({ length: columns * columns }, (_, at) => {
    const [i, j] = [Math.floor(at / columns), at % columns];
    let sum = 0;
    for (let r = 0; r < rows; r++) sum += t[i * rows + r] * t[j * rows + r];
    return sum;
  });
  const right = Float64Array.from(
    gradient(
      matrix,
      rightHandSide.map((b) => -b),
      new Float64Array(columns),
    ),
  );
  const constant = rightHandSide.reduce((sum, b) => sum + b * b, 0);
  return createSubsetSearch({ order: columns, gram, right, constant }, mostSubsets);
};

/** All subsets of `size` columns, none of them zero, with what NNLS leaves of the squares in each; least first. */
function oneByOne({ rows, columns, matrix, rightHandSide }: System, size: number) {
  const present = Array.from({ length: columns }, (_, j) => j).filter((j) =>
    Array.from({ length: rows }, (_, r) => matrix[r * columns + j]).some((value) => value !== 0),
  );
  const subsets = (from: number, left: number): number[][] =>
    left === 0
      ? [[]]
      : present.slice(from).flatMap((j, i) => subsets(from + i + 1, left - 1).map((rest) => [j, ...rest]));
  return subsets(0, size)
    .map((chosen) => {
      const part = Float64Array.from({ length: rows * size }, (_, at) => {
        return matrix[Math.floor(at / size) * columns + chosen[at % size]];
      });
      const { x } = nnls(part, rightHandSide, rows, size);
      return { columns: chosen, squares: norm(minus(times(part, size, x), rightHandSide)) ** 2 };
    })
    .sort((a, b) => a.squares - b.squares);
}

describe("createSubsetSearch against NNLS on every subset", () => {
  it("finds the best of each size, with the squares they leave", () => {
    fc.assert(
      fc.property(system({ maxRows: 8, maxColumns: 7 }), fc.integer({ min: 1, max: 12 }), (problem, most) => {
        const search = searchOf(problem);
        const scale = 1 + norm(problem.rightHandSide) ** 2;
        for (let size = 1; size <= 4; size++) {
          const all = oneByOne(problem, size);
          const found = search.next(most) ?? [];
          expect(found.length).toBe(Math.min(most, all.length));
          found.forEach(({ columns, squares }, i) => {
            expect(Math.abs(squares - all[i].squares)).toBeLessThan(1e-9 * scale);
            const named = all.find((one) => one.columns.join() === columns.join());
            expect(Math.abs(squares - (named?.squares ?? Number.NaN))).toBeLessThan(1e-9 * scale);
          });
          expect(new Set(found.map(({ columns }) => columns.join())).size).toBe(found.length);
        }
      }),
      { numRuns: 300, seed: 31 },
    );
  });

  it("leaves out columns of zeros, and has no subset larger than what is left", () => {
    const search = searchOf({
      rows: 2,
      columns: 3,
      matrix: Float64Array.of(1, 0, 0, 0, 0, 1),
      rightHandSide: Float64Array.of(3, -4),
    });
    expect(search.next(9)).toEqual([
      { columns: [0], squares: 16 },
      { columns: [2], squares: 25 },
    ]);
    expect(search.next(9)).toEqual([{ columns: [0, 2], squares: 16 }]);
    expect(search.next(9)).toEqual([]);
  });

  it("stops before a size that would be more subsets than it may go through, and says how many it did", () => {
    const rows = 6;
    const matrix = Float64Array.from({ length: 36 }, (_, at) => (at % 7 === 0 ? 1 : 0));
    const problem = { rows, columns: 6, matrix, rightHandSide: new Float64Array(6).fill(1) };
    const search = searchOf(problem, 6 + 15);
    expect(search.next(1)).toHaveLength(1);
    expect(search.next(1)).toHaveLength(1);
    expect(search.next(1)).toBeUndefined();
    expect(search.next(1)).toBeUndefined();
    expect(search.visited()).toBe(21);
    const all = searchOf(problem);
    for (let size = 1; size <= 4; size++) all.next(1);
    expect(all.visited()).toBe(6 + 15 + 20 + 15);
  });
});
