import { factorise, solveUpper } from "../linear/householder.js";
import { type Box, boxConstraints, moveIntoBox } from "./box.js";
import { constrainedLeastSquares } from "./constrainedLeastSquares.js";
import type { LinearConstraints } from "./linearConstraints.js";

export interface DampedStep {
  readonly p: Float64Array;
  /** x + p, in the box exactly: on a bound that holds it back, not a rounding beside it. */
  readonly end: Float64Array;
  /** The limits of the box that hold the step back; handed on, they make the next one cheaper. */
  readonly active: readonly number[];
}

export interface Linearisation {
  readonly x: Float64Array;
  readonly residual: Float64Array;
  /** Row-major. */
  readonly jacobian: Float64Array;
  /** D */
  readonly scale: Float64Array;
}

/**
 * Prepares the solution of: minimise ‖r + Jp‖² + λ‖Dp‖² subject to x + p in the box.
 * Plain QR without limits, `constrainedLeastSquares` with them. A zero in D counts as 1.
 * Source: Marquardt (1963), written as least squares with the rows √λ·D (Moré 1978).
 */
export function createDampedStep(
  box: Box,
  rows: number,
): (at: Linearisation, damping: number, active: readonly number[]) => DampedStep {
  const columns = box.lower.length;
  const height = rows + columns;
  const constraints = boxConstraints(box);
  const matrix = new Float64Array(height * columns);
  const target = new Float64Array(height);
  const diagonal = new Float64Array(columns);
  const stay = new Float64Array(columns);

  return ({ x, residual, jacobian, scale }, damping, active) => {
    matrix.set(jacobian);
    matrix.fill(0, rows * columns);
    const root = Math.sqrt(damping);
    for (let j = 0; j < columns; j++) {
      matrix[(rows + j) * columns + j] = root * (scale[j] > 0 ? scale[j] : 1);
    }
    for (let i = 0; i < rows; i++) target[i] = -residual[i];
    target.fill(0, rows);

    if (constraints.atLeast.length === 0) {
      factorise(matrix, height, columns, diagonal, target);
      solveUpper(matrix, columns, diagonal, target);
      const p = target.slice(0, columns);
      return { p, end: p.map((change, j) => x[j] + change), active };
    }

    const solution = constrainedLeastSquares(
      { matrix, rightHandSide: target, rows: height, columns },
      seenFrom(x, constraints),
      {
        start: stay,
        active,
      },
    );
    const end = solution.x.map((change, j) => x[j] + change);
    for (const i of solution.active) {
      if (constraints.unknown[i] >= 0) end[constraints.unknown[i]] = constraints.bound[i];
    }
    moveIntoBox(end, box);
    return { p: solution.x, end, active: solution.active };
  };
}

/** G·(x + p) ≥ h as constraints on p. */
function seenFrom(x: Float64Array, { matrix, atLeast }: LinearConstraints): LinearConstraints {
  const missing = atLeast.slice();
  for (let i = 0, k = 0; i < missing.length; i++) {
    for (let j = 0; j < x.length; j++, k++) missing[i] -= matrix[k] * x[j];
  }
  return { matrix, atLeast: missing };
}
