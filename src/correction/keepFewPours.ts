import { factorise } from "../numeric/householder.js";
import { nnls } from "../numeric/nnls.js";
import { createObjective, type PaintCost } from "./objective.js";
import type { Problem } from "./problem.js";
import { FINE, refine, type Solution } from "./refine.js";

/** Grams less than any scale shows: not a pour. */
const LEAST_POUR_GRAMS = 1e-5;

/** Toners that additions really pour, as indices into the toner set. */
export function poured(additions: ArrayLike<number>): readonly number[] {
  return Array.from(additions, (_, j) => j).filter((j) => additions[j] > LEAST_POUR_GRAMS);
}

/**
 * Drops one pour after the other until no more than `maxPours` are left, each time the one that the objective,
 * made linear at the given solution and solved again without it by NNLS, misses least; then refines what remains.
 * Backward elimination: a good few pours, not proved to be the best few.
 */
export function keepFewPours(problem: Problem, solution: Solution, paint: PaintCost): Solution {
  const { additions, iterations } = solution;
  const used = poured(additions);
  if (used.length === 0) return solution;
  let amounts: Float64Array = Float64Array.from(used, (j) => additions[j]);
  const { triangle: full, right } = linearised(problem, used, amounts, paint);
  let triangle = full;
  while (pours(amounts) > problem.bench.maxPours) {
    ({ triangle, amounts } = withoutLeastMissed(triangle, right, amounts));
  }
  const kept = used.filter((_, i) => amounts[i] > 0);
  const start = amounts.filter((grams) => grams > 0);
  const few = refine(problem, kept, start, { tolerances: FINE, paint });
  return { ...few, iterations: iterations + few.iterations };
}

const pours = (amounts: Float64Array): number => amounts.filter((grams) => grams > 0).length;

/**
 * The objective near `amounts` as ‖Rx − right‖² + constant, R square: r + J(x − x₀) ≈ 0 is Jx ≈ Jx₀ − r, brought to a
 * triangle once, so that each trial costs little.
 */
function linearised(
  problem: Problem,
  used: readonly number[],
  amounts: Float64Array,
  paint: PaintCost,
): { readonly triangle: Float64Array; readonly right: Float64Array } {
  const objective = createObjective(problem, used, paint);
  const rows = objective.residualCount;
  const width = used.length;
  const matrix = new Float64Array(rows * width);
  const right = new Float64Array(rows);
  objective.residuals(amounts, right);
  objective.jacobian(amounts, matrix);
  for (let i = 0; i < rows; i++) {
    right[i] = -right[i];
    for (let c = 0; c < width; c++) right[i] += matrix[i * width + c] * amounts[c];
  }
  const diagonal = new Float64Array(width);
  factorise(matrix, rows, width, diagonal, right);
  const triangle = matrix.slice(0, width * width);
  for (let i = 0; i < width; i++) {
    triangle.fill(0, i * width, i * width + i);
    triangle[i * width + i] = diagonal[i];
  }
  return { triangle, right: right.slice(0, width) };
}

/** The best amounts with one pour fewer; a column of zeros is one that NNLS never takes. */
function withoutLeastMissed(
  triangle: Float64Array,
  right: Float64Array,
  amounts: Float64Array,
): { readonly triangle: Float64Array; readonly amounts: Float64Array } {
  const width = amounts.length;
  let least = Number.POSITIVE_INFINITY;
  let best = { triangle, amounts };
  for (let out = 0; out < width; out++) {
    if (amounts[out] === 0) continue;
    const without = triangle.slice();
    for (let i = out; i < without.length; i += width) without[i] = 0;
    const { x, residualNorm } = nnls(without, right, width, width);
    if (residualNorm < least) {
      least = residualNorm;
      best = { triangle: without, amounts: x };
    }
  }
  return best;
}
