import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { arrowVariances } from "../../src/numeric/linear/arrowVariances.js";
import {
  type BlockArrow,
  createBlockArrow,
  factoriseArrow,
  solveArrow,
} from "../../src/numeric/linear/blockArrow.js";
import { choleskySolve } from "../../src/numeric/linear/denseAlgebra.js";
import { createRandom } from "../../src/numeric/probability/random.js";

/** JᵀJ + I of random J in the shape of an arrow, and the same as a dense matrix. */
function randomArrow(blocks: number, size: number, border: number, isChained: boolean, seed: number) {
  const random = createRandom(seed);
  const arrow = createBlockArrow(blocks, size, border);
  const count = blocks * size + border;
  const dense = new Float64Array(count * count);
  const add = (row: Float64Array) => {
    for (let i = 0; i < count; i++) for (let j = 0; j < count; j++) dense[i * count + j] += row[i] * row[j];
  };
  for (let b = 0; b < blocks; b++) {
    for (let r = 0; r < size + 1; r++) {
      const row = new Float64Array(count);
      for (let i = 0; i < size; i++) row[b * size + i] = random.normal();
      for (let p = 0; p < border; p++) row[blocks * size + p] = random.normal();
      add(row);
    }
    for (let i = 0; isChained && b > 0 && i < size; i++) {
      const row = new Float64Array(count);
      row[b * size + i] = 2 * random.uniform();
      row[(b - 1) * size + i] = -row[b * size + i];
      add(row);
    }
  }
  for (let i = 0; i < count; i++) dense[i * count + i] += 0.1;
  read(arrow, dense, count);
  return { arrow, dense, count };
}

function read(arrow: BlockArrow, dense: Float64Array, count: number): void {
  const { blocks, size, border, diagonal, link, edge, corner } = arrow;
  const rows = blocks * size;
  for (let i = 0; i < rows; i++) {
    const b = Math.floor(i / size);
    for (let j = 0; j < size; j++) diagonal[i * size + j] = dense[i * count + b * size + j];
    if (b > 0) link[i] = dense[i * count + i - size];
    for (let p = 0; p < border; p++) edge[i * border + p] = dense[i * count + rows + p];
  }
  for (let p = 0; p < border; p++) {
    for (let q = 0; q < border; q++) corner[p * border + q] = dense[(rows + p) * count + rows + q];
  }
}

const shapes = fc.record({
  blocks: fc.integer({ min: 1, max: 5 }),
  size: fc.integer({ min: 1, max: 5 }),
  border: fc.integer({ min: 0, max: 6 }),
  isChained: fc.boolean(),
  seed: fc.nat(),
});

describe("blockArrow against the dense Cholesky of ml-matrix (computed here)", () => {
  it("solves", () => {
    fc.assert(
      fc.property(shapes, ({ blocks, size, border, isChained, seed }) => {
        const { arrow, dense, count } = randomArrow(blocks, size, border, isChained, seed);
        const random = createRandom(seed + 1);
        const right = Float64Array.from({ length: count }, () => random.normal());
        const expected = choleskySolve(dense, right, count);
        const factor = factoriseArrow(arrow, new Float64Array(count));
        expect(factor).toBeDefined();
        const x = right.slice();
        if (factor) solveArrow(factor, x);
        x.forEach((value, i) => {
          expect(Math.abs(value - expected[i])).toBeLessThan(1e-8 * (1 + Math.abs(expected[i])));
        });
      }),
      { numRuns: 100, seed: 3 },
    );
  });

  it("gives the diagonal of the inverse, and what stands between neighbours", () => {
    fc.assert(
      fc.property(shapes, ({ blocks, size, border, isChained, seed }) => {
        const { arrow, dense, count } = randomArrow(blocks, size, border, isChained, seed);
        const unit = new Float64Array(count * count);
        for (let i = 0; i < count; i++) unit[i * count + i] = 1;
        const inverse = choleskySolve(dense, unit, count, count);
        const factor = factoriseArrow(arrow, new Float64Array(count));
        if (!factor) throw new Error("not positive definite");
        const { variance, chained } = arrowVariances(factor);
        variance.forEach((value, i) => {
          expect(Math.abs(value / inverse[i * count + i] - 1)).toBeLessThan(1e-8);
        });
        for (let i = size; i < blocks * size; i++) {
          expect(Math.abs(chained[i] - inverse[i * count + i - size])).toBeLessThan(
            1e-8 * inverse[i * count + i],
          );
        }
      }),
      { numRuns: 100, seed: 4 },
    );
  });

  it("adds the shift to the diagonal, and refuses what is not positive definite", () => {
    const arrow = createBlockArrow(2, 1, 1);
    arrow.diagonal.set([1, 1]);
    arrow.corner.set([-2]);
    expect(factoriseArrow(arrow, new Float64Array(3))).toBeUndefined();
    const factor = factoriseArrow(arrow, Float64Array.of(1, 3, 4));
    const x = Float64Array.of(2, 8, 6);
    if (factor) solveArrow(factor, x);
    expect(Array.from(x)).toEqual([1, 2, 3].map((value) => expect.closeTo(value, 12)));
  });
});
