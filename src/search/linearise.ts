import { factorise } from "../numeric/linear/householder.js";
import { createObjective } from "../problem/objective.js";
import type { Problem } from "../problem/problem.js";
import type { PaintCost } from "../problem/terms.js";

/** ‖Ax − b‖²: the objective near some additions, made linear. */
export interface LinearObjective {
  readonly rows: number;
  readonly columns: number;
  /** Row-major. */
  readonly matrix: Float64Array;
  readonly right: Float64Array;
}

/** r + J(x − x₀) for additions x of the toners in `free`: A = J, b = J·x₀ − r. */
export function linearise(
  problem: Problem,
  free: readonly number[],
  amounts: ArrayLike<number>,
  paint: PaintCost,
): LinearObjective {
  const objective = createObjective(problem, free, paint);
  const rows = objective.residualCount;
  const columns = free.length;
  const matrix = new Float64Array(rows * columns);
  const right = new Float64Array(rows);
  objective.residuals(amounts, right);
  objective.jacobian(amounts, matrix);
  for (let i = 0; i < rows; i++) {
    let sum = -right[i];
    for (let c = 0; c < columns; c++) sum += matrix[i * columns + c] * amounts[c];
    right[i] = sum;
  }
  return { rows, columns, matrix, right };
}

/** The same as ‖Rx − t‖² and a constant, R square and upper triangular with zeros below; overwrites what it is given. */
export function triangleForm({ rows, columns, matrix, right }: LinearObjective): {
  readonly triangle: Float64Array;
  readonly right: Float64Array;
} {
  const diagonal = new Float64Array(columns);
  factorise(matrix, rows, columns, diagonal, right);
  const triangle = matrix.slice(0, columns * columns);
  for (let i = 0; i < columns; i++) {
    triangle.fill(0, i * columns, i * columns + i);
    triangle[i * columns + i] = diagonal[i];
  }
  return { triangle, right: right.slice(0, columns) };
}
