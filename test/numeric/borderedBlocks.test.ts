import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  eliminate,
  factoriseBlocks,
  logDeterminant,
  whiten,
  whitenTransposed,
} from "../../src/numeric/linear/borderedBlocks.js";
import {
  choleskyInPlace,
  solveLower,
  solveLowerTransposed,
} from "../../src/numeric/linear/triangularSolve.js";
import { createRandom } from "../../src/numeric/probability/random.js";

/** Columns within each block, then some across all, of sizes over four powers of ten, and one of zeros. */
function drawColumns(sizes: readonly number[], across: number, seed: number): Float64Array {
  const random = createRandom(seed);
  const rows = sizes.reduce((sum, size) => sum + size, 0);
  const column = (from: number, to: number) => {
    const height = 10 ** (4 * random.uniform() - 2);
    return Array.from({ length: rows }, (_, r) => (r >= from && r < to ? height * random.normal() : 0));
  };
  let from = 0;
  const within = sizes.flatMap((size) => {
    from += size;
    return Array.from({ length: size + 2 }, () => column(from - size, from));
  });
  return Float64Array.from(
    [...within, ...Array.from({ length: across }, () => column(0, rows)), column(0, 0)].flat(),
  );
}

/** First row of each column that is not 0 and the row after the last one, 0 and 0 of a column of zeros. */
function spansOf(columns: Float64Array, rows: number): Int32Array {
  return Int32Array.from({ length: (2 * columns.length) / rows }, (_, i) => {
    const column = Array.from(columns.subarray(Math.floor(i / 2) * rows, (Math.floor(i / 2) + 1) * rows));
    const first = column.findIndex((value) => value !== 0);
    if (first < 0) return 0;
    return i % 2 === 0 ? first : column.findLastIndex((value) => value !== 0) + 1;
  });
}

/** I + J·Jᵀ by plain loops, and its Cholesky factor. */
function denseFactor(columns: Float64Array, rows: number): Float64Array {
  const dense = new Float64Array(rows * rows);
  for (let i = 0; i < rows; i++) {
    for (let k = 0; k < rows; k++) {
      let sum = i === k ? 1 : 0;
      for (let x = 0; x < columns.length; x += rows) sum += columns[x + i] * columns[x + k];
      dense[i * rows + k] = sum;
    }
  }
  choleskyInPlace(dense, 0, rows);
  return dense;
}

const largest = (values: Float64Array) => values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);

describe("I + J·Jᵀ in blocks with a border", () => {
  const cases = fc.record({
    sizes: fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 5 }),
    across: fc.integer({ min: 0, max: 12 }),
    seed: fc.integer({ min: 1, max: 1e6 }),
    width: fc.integer({ min: 1, max: 4 }),
  });

  it("has the determinant and the solution of the dense matrix, whitened forth and back", () => {
    fc.assert(
      fc.property(cases, ({ sizes, across, seed, width }) => {
        const rows = sizes.reduce((sum, size) => sum + size, 0);
        const columns = drawColumns(sizes, across, seed);
        const dense = denseFactor(columns, rows);
        const factor = factoriseBlocks({ values: columns, spans: spansOf(columns, rows) }, sizes);
        let logs = 0;
        for (let i = 0; i < rows; i++) logs += 2 * Math.log(dense[i * rows + i]);
        expect(Math.abs(logDeterminant(factor) - logs)).toBeLessThan(1e-7 * (1 + Math.abs(logs)));
        const random = createRandom(seed + 1);
        const right = Float64Array.from({ length: rows * width }, () => random.normal());
        const expected = right.slice();
        solveLower(dense, rows, expected, 0, width);
        const square = expected.reduce((sum, value) => sum + value * value, 0);
        solveLowerTransposed(dense, rows, expected, 0, width);
        const found = right.slice();
        whiten(factor, found, width);
        expect(found.reduce((sum, value) => sum + value * value, 0) / square).toBeCloseTo(1, 7);
        whitenTransposed(factor, found, width);
        const off = largest(found.map((value, i) => value - expected[i]));
        expect(off).toBeLessThan(1e-6 * largest(expected));
      }),
    );
  });

  it("whitens what it says to identity: W·(I + J·Jᵀ)·Wᵀ = I", () => {
    const sizes = [5, 7, 6];
    const columns = drawColumns(sizes, 4, 3);
    const factor = factoriseBlocks({ values: columns, spans: spansOf(columns, 18) }, sizes);
    expect(factor.border).toBe(4);
    expect(factor.blocks.map(({ length }) => Math.sqrt(length))).toEqual(sizes);
    const dense = denseFactor(columns, 18);
    const lower = dense.map((value, i) => (i % 18 <= Math.floor(i / 18) ? value : 0));
    whiten(factor, lower, 18);
    for (let i = 0; i < 18; i++) {
      for (let k = 0; k < 18; k++) {
        let sum = 0;
        for (let j = 0; j < 18; j++) sum += lower[i * 18 + j] * lower[k * 18 + j];
        expect(Math.abs(sum - (i === k ? 1 : 0))).toBeLessThan(1e-8);
      }
    }
  });

  it("leaves of unknowns what the dense inverse does: I − Jᵀ(I + J·Jᵀ)⁻¹J, by elimination", () => {
    const sizes = [4, 6, 5];
    const rows = 15;
    const columns = drawColumns(sizes, 3, 5);
    const count = columns.length / rows;
    const factor = factoriseBlocks({ values: columns, spans: spansOf(columns, rows) }, sizes);
    const dense = denseFactor(columns, rows);
    const shown = Float64Array.from(
      { length: rows * count },
      (_, i) => columns[(i % count) * rows + Math.floor(i / count)],
    );
    solveLower(dense, rows, shown, 0, count);
    // J of the unknowns within a block, and the identity of those across.
    const x = Float64Array.from({ length: rows * count }, (_, i) =>
      factor.across.includes(i % count) ? 0 : columns[(i % count) * rows + Math.floor(i / count)],
    );
    const y = Float64Array.from({ length: factor.border * count }, (_, i) =>
      factor.across[Math.floor(i / count)] === i % count ? 1 : 0,
    );
    eliminate(factor, x, y, count);
    for (let a = 0; a < count; a++) {
      for (let b = 0; b < count; b++) {
        let expected = a === b ? 1 : 0;
        for (let r = 0; r < rows; r++) expected -= shown[r * count + a] * shown[r * count + b];
        let found = a === b && !factor.across.includes(a) ? 1 : 0;
        for (let r = 0; r < rows; r++) found -= x[r * count + a] * x[r * count + b];
        for (let i = 0; i < factor.border; i++) found += y[i * count + a] * y[i * count + b];
        expect(Math.abs(found - expected)).toBeLessThan(1e-9);
      }
    }
  });

  it("is the Cholesky factor to the last bit where there is one block, or too much couples them", () => {
    const columns = drawColumns([4, 4], 5, 9);
    const dense = factoriseBlocks({ values: columns, spans: spansOf(columns, 8) }, [8]);
    expect(dense.border).toBe(0);
    expect(factoriseBlocks({ values: columns, spans: spansOf(columns, 8) }, [4, 4])).toEqual(dense);
    const right = Float64Array.from({ length: 8 }, (_, i) => i + 1);
    const solved = right.slice();
    solveLower(dense.blocks[0], 8, solved, 0, 1);
    whiten(dense, right, 1);
    expect(right).toEqual(solved);
  });
});
