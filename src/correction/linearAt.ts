import type { SubsetFit } from "../numeric/createSubsetSearch.js";
import { nnls } from "../numeric/nnls.js";
import { type LinearObjective, linearise } from "./linearise.js";
import type { PaintCost } from "./objective.js";
import type { Problem } from "./problem.js";

/** `linearise` at additions in the order of the toner set. */
export function linearAt(
  problem: Problem,
  free: readonly number[],
  additions: Float64Array,
  paint: PaintCost,
): LinearObjective {
  return linearise(
    problem,
    free,
    free.map((j) => additions[j]),
    paint,
  );
}

/** Where a search among a few columns begins. */
export function startOf(linear: LinearObjective, columns: readonly number[]): Float64Array {
  return fitOf(linear, columns).x;
}

/** NNLS over a few columns of the linear objective. */
export function fitOf(
  { rows, columns, matrix, right }: LinearObjective,
  chosen: readonly number[],
): SubsetFit & { readonly x: Float64Array } {
  const width = chosen.length;
  const part = new Float64Array(rows * width);
  for (let i = 0; i < rows; i++) {
    for (let c = 0; c < width; c++) part[i * width + c] = matrix[i * columns + chosen[c]];
  }
  const { x, residualNorm } = nnls(part, right, rows, width);
  return { columns: chosen, squares: residualNorm * residualNorm, x };
}
