import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  createColumnTriangle,
  enterColumn,
  leaveColumn,
  solveTriangle,
} from "../../src/numeric/linear/columnTriangle.js";
import { solveLeastSquares } from "../../src/numeric/linear/denseAlgebra.js";
import { vector } from "./arbitraries.js";
import { norm } from "./matrices.js";

describe("columnTriangle", () => {
  const rows = 7;
  const columns = 5;

  it("after any entering and leaving, solves least squares in the chosen columns", () => {
    fc.assert(
      fc.property(
        vector(rows * columns),
        vector(rows),
        fc.array(fc.nat({ max: columns - 1 }), { minLength: 1, maxLength: 15 }),
        (matrix, target, moves) => {
          for (let j = 0; j < columns; j++) matrix[j * columns + j] += 9;
          const triangle = createColumnTriangle(matrix, target, rows, columns);
          for (const column of moves) {
            const position = triangle.chosen.subarray(0, triangle.count).indexOf(column);
            if (position < 0) enterColumn(triangle, column);
            else leaveColumn(triangle, position);
          }
          const chosen = Array.from(triangle.chosen.subarray(0, triangle.count));
          fc.pre(chosen.length > 0);
          expect(
            Array.from(triangle.isChosen, (flag, j) => flag === 1 && j).filter((j) => j !== false),
          ).toEqual(chosen.toSorted((p, q) => p - q));

          const part = Float64Array.from({ length: rows * chosen.length }, (_, k) => {
            const i = Math.floor(k / chosen.length);
            return matrix[i * columns + chosen[k % chosen.length]];
          });
          const expected = solveLeastSquares(part, target, rows, chosen.length).x;
          const found = new Float64Array(columns);
          solveTriangle(triangle, found);
          expected.forEach((value, k) => {
            expect(found[k]).toBeCloseTo(value, 10);
          });
          expect(norm(triangle.target)).toBeCloseTo(norm(target), 10);
        },
      ),
    );
  });
});
