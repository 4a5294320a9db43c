import { choleskyInPlace, solveLower, solveLowerTransposed } from "./triangularSolve.js";

/** Minimise ‖r(u)‖² + ‖u‖²: every residual and, beforehand, every unknown is standard normal. */
export interface UnitPriorProblem {
  readonly residualCount: number;
  /** Where to begin; its length is the number of unknowns. */
  readonly start: ArrayLike<number>;
  /** Stop, without having converged, where a step promises no cost below this. */
  readonly giveUpAbove?: number;
  /** Writes r(u), and ∂rᵢ/∂uⱼ row-major where a matrix is given. */
  evaluate(u: Float64Array, residual: Float64Array, jacobian?: Float64Array): void;
}

/** The most probable u and the normal law around it (Laplace). */
export interface UnitPriorFit {
  readonly u: Float64Array;
  /** ‖r‖² + ‖u‖². */
  readonly cost: number;
  /** −½(cost + ln det(I + JᵀJ)): ln of the evidence but for what the residuals' own scale adds. */
  readonly logEvidence: number;
  /** Lower triangle L of I + JᵀJ = L·Lᵀ, row-major: the inverse of the posterior covariance. */
  readonly factor: Float64Array;
  readonly converged: boolean;
}

const MOST_STEPS = 50;
const MOST_HALVINGS = 12;
/** Stop once a step would move no unknown by more than this share of its own sd beforehand. */
const SMALLEST_STEP = 1e-4;

/**
 * Gauss–Newton with halved steps; I + JᵀJ is never singular, so no damping is needed.
 * Source: Gelman et al. 2013 ch. 4 (normal approximation at the mode).
 */
export function fitWithUnitPrior({
  residualCount,
  start,
  giveUpAbove = Number.POSITIVE_INFINITY,
  evaluate,
}: UnitPriorProblem): UnitPriorFit {
  const count = start.length;
  let u = Float64Array.from(start);
  let residual = new Float64Array(residualCount);
  let trialResidual = new Float64Array(residualCount);
  const jacobian = new Float64Array(residualCount * count);
  evaluate(u, residual, jacobian);
  let cost = squares(residual) + squares(u);
  let converged = false;
  for (let step = 0; step < MOST_STEPS && !converged; step++) {
    const { factor, gradient } = normalEquations(jacobian, residual, u);
    solveLower(factor, 0, count, gradient, 0, 1);
    // Now L⁻¹g: its squares are what the cost would fall by if r were straight.
    if (cost - squares(gradient) > giveUpAbove) break;
    solveLowerTransposed(factor, 0, count, gradient, 0, 1);
    let share = 1;
    let taken = false;
    for (let halving = 0; halving < MOST_HALVINGS && !taken; halving++, share /= 2) {
      const trial = u.map((value, j) => value - share * gradient[j]);
      evaluate(trial, trialResidual);
      const trialCost = squares(trialResidual) + squares(trial);
      if (!(trialCost <= cost)) continue;
      taken = true;
      u = trial;
      [residual, trialResidual] = [trialResidual, residual];
      cost = trialCost;
    }
    converged = !taken || gradient.every((move) => Math.abs(move) <= SMALLEST_STEP);
    if (taken) evaluate(u, residual, jacobian);
  }
  const { factor } = normalEquations(jacobian, residual, u);
  let logDeterminant = 0;
  for (let j = 0; j < count; j++) logDeterminant += 2 * Math.log(factor[j * count + j]);
  return { u, cost, logEvidence: -(cost + logDeterminant) / 2, factor, converged };
}

/** The posterior covariance of the first `size` unknowns, row-major. */
export function leadingCovariance({ factor, u }: UnitPriorFit, size: number): Float64Array {
  const count = u.length;
  const columns = new Float64Array(count * size);
  for (let j = 0; j < size; j++) columns[j * size + j] = 1;
  solveLower(factor, 0, count, columns, 0, size);
  solveLowerTransposed(factor, 0, count, columns, 0, size);
  return columns.subarray(0, size * size);
}

function normalEquations(jacobian: Float64Array, residual: Float64Array, u: Float64Array) {
  const count = u.length;
  const factor = new Float64Array(count * count);
  const gradient = Float64Array.from(u);
  const filled = new Int32Array(count);
  for (let i = 0, row = 0; i < residual.length; i++, row += count) {
    let width = 0;
    for (let j = 0; j < count; j++) if (jacobian[row + j] !== 0) filled[width++] = j;
    for (let a = 0; a < width; a++) {
      const j = filled[a];
      const slope = jacobian[row + j];
      gradient[j] += slope * residual[i];
      for (let b = 0; b <= a; b++) factor[j * count + filled[b]] += slope * jacobian[row + filled[b]];
    }
  }
  for (let j = 0; j < count; j++) factor[j * count + j] += 1;
  choleskyInPlace(factor, 0, count);
  return { factor, gradient };
}

function squares(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i] * values[i];
  return sum;
}
