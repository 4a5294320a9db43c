import { checkInteger, checkList, checkNumbers } from "../../core/check.js";
import { type BoxLimits, createBox, moveIntoBox } from "./box.js";
import { createDampedStep } from "./dampedStep.js";

/** Minimise ½Σrᵢ(x)² over the box. */
export interface LeastSquaresProblem extends BoxLimits {
  readonly residualCount: number;
  /** Where to begin; a start outside the box is first moved to the nearest point in it. */
  readonly start: ArrayLike<number>;
  /** Writes r(x). Where r does not exist it may write NaN: such a step is not taken. */
  residuals(x: Float64Array, out: Float64Array): void;
  /** Writes ∂rᵢ/∂xⱼ, row-major, residualCount × unknowns. */
  jacobian(x: Float64Array, out: Float64Array): void;
}

/** What is tested, of a step p with damping λ. */
export interface LevenbergMarquardtOptions {
  readonly maxIterations?: number;
  /** "gradient": −r·Jp ≤ gradientTolerance·‖r‖·‖Jp‖, the cosine between r and what p would change of it. */
  readonly gradientTolerance?: number;
  /**
   * "cost": the decrease of the cost, predicted and found, is ≤ costTolerance·½‖r‖²; or p is refused and the decrease
   * predicted for it is ≤ 4ε·‖r‖·‖Dx‖, less than the rounding of r can show.
   */
  readonly costTolerance?: number;
  /** "step": p is taken, λ ≤ 1 and ‖Dp‖ ≤ stepTolerance·‖Dx‖; "stalled": the same of a p that is refused. */
  readonly stepTolerance?: number;
  /** "zero-residual": ‖r‖ ≤ zeroTolerance·‖r at the start‖ */
  readonly zeroTolerance?: number;
  /** The first λ. */
  readonly damping?: number;
  /** Asked before every step. */
  readonly shouldStop?: () => boolean;
}

export const LEVENBERG_MARQUARDT_DEFAULTS: Required<LevenbergMarquardtOptions> = Object.freeze({
  maxIterations: 200,
  gradientTolerance: 1e-10,
  costTolerance: 1e-14,
  stepTolerance: 1e-10,
  zeroTolerance: Number.EPSILON,
  damping: 1e-3,
  shouldStop: () => false,
});

export type ConvergedReason = "gradient" | "cost" | "step" | "zero-residual";
/** "stalled": the cost does not fall along the shortest of steps as J says; J is wrong, or r has a kink. */
export type FailureReason = "iteration-limit" | "stopped" | "stalled" | "not-finite";

export interface LevenbergMarquardtResult {
  readonly x: Float64Array;
  /** ½Σr² */
  readonly cost: number;
  /** Steps solved for. */
  readonly iterations: number;
  /** Calls of `residuals`. */
  readonly evaluations: number;
  readonly stopReason: ConvergedReason | FailureReason;
  readonly converged: boolean;
}

const CONVERGED: readonly string[] = [
  "gradient",
  "cost",
  "step",
  "zero-residual",
] satisfies ConvergedReason[];
/** Least share of the predicted decrease for which a step is taken (Moré 1978). */
const LEAST_GAIN = 1e-4;
/** λ never falls below, so that √λ keeps a rank-deficient J regular. */
const LEAST_DAMPING = Number.EPSILON;

/**
 * Levenberg–Marquardt within bounds and a cap on the sum. Each step p minimises ‖r + Jp‖² + λ‖Dp‖² over the p that
 * stay in the box, D being the largest column norms of J so far. It is taken if the cost falls by enough of what the
 * linear model predicts; λ then shrinks by as much as the model was right, and otherwise grows ever faster.
 * Every x handed to `residuals` and `jacobian` is in the box exactly.
 * Only a test that holds (see the options) makes the result a success; whatever else ends it is a failure.
 * Throws InputError for a start that is not finite and for an empty box.
 * Source: Marquardt (1963); Moré (1978) for D; Nielsen (1999) for λ; Bates & Watts (1981) for "gradient".
 */
export function levenbergMarquardt(
  problem: LeastSquaresProblem,
  options: LevenbergMarquardtOptions = {},
): LevenbergMarquardtResult {
  const settings = { ...LEVENBERG_MARQUARDT_DEFAULTS, ...options };
  const rows = checkInteger(problem.residualCount, "residualCount", { min: 1 });
  const columns = checkList(problem.start, "start", { min: 1 }).length;
  const box = createBox(problem, columns);
  const solveStep = createDampedStep(box, rows);

  let x: Float64Array = Float64Array.from(checkNumbers(problem.start, "start", columns));
  moveIntoBox(x, box);
  let residual = new Float64Array(rows);
  problem.residuals(x, residual);
  let cost = halfSquares(residual);
  const jacobian = new Float64Array(rows * columns);
  problem.jacobian(x, jacobian);
  const scale = new Float64Array(columns);
  raiseScale(scale, jacobian);

  let trialResidual = new Float64Array(rows);
  const zeroCost = cost * settings.zeroTolerance ** 2;
  let damping = settings.damping;
  let growth = 2;
  let active: readonly number[] = [];
  let iterations = 0;
  let evaluations = 1;

  const stop = (stopReason: ConvergedReason | FailureReason): LevenbergMarquardtResult => ({
    x,
    cost,
    iterations,
    evaluations,
    stopReason,
    converged: CONVERGED.includes(stopReason),
  });

  for (;;) {
    if (!Number.isFinite(cost) || !scale.every(Number.isFinite)) return stop("not-finite");
    if (cost <= zeroCost) return stop("zero-residual");
    if (iterations >= settings.maxIterations) return stop("iteration-limit");
    if (settings.shouldStop()) return stop("stopped");

    const step = solveStep({ x, residual, jacobian, scale }, damping, active);
    iterations++;
    const { slope, change } = modelAlong(step.p, residual, jacobian);
    const norm = Math.sqrt(2 * cost);
    if (-slope <= settings.gradientTolerance * norm * change) return stop("gradient");

    problem.residuals(step.end, trialResidual);
    evaluations++;
    const trialCost = halfSquares(trialResidual);
    const predicted = -slope - 0.5 * change * change;
    const actual = cost - trialCost;
    const gain = actual / predicted;
    const taken = gain >= LEAST_GAIN;

    const size = scaledNorm(x, scale);
    const isShort = scaledNorm(step.p, scale) <= settings.stepTolerance * size;
    const isSmall = Math.max(Math.abs(actual), predicted) <= settings.costTolerance * cost;
    const isHidden = !taken && predicted <= 4 * Number.EPSILON * norm * size;

    if (taken) {
      x = step.end;
      [residual, trialResidual] = [trialResidual, residual];
      cost = trialCost;
      active = step.active;
    }
    if (isSmall || isHidden) return stop("cost");
    if (isShort && !taken) return stop("stalled");
    if (isShort && damping <= 1) return stop("step");

    if (taken) {
      problem.jacobian(x, jacobian);
      raiseScale(scale, jacobian);
      damping = Math.max(LEAST_DAMPING, damping * Math.max(1 / 3, 1 - (2 * gain - 1) ** 3));
      growth = 2;
    } else {
      damping *= growth;
      growth *= 2;
    }
  }
}

/** r·Jp, the slope of the cost along p, and ‖Jp‖. */
function modelAlong(
  p: Float64Array,
  residual: Float64Array,
  jacobian: Float64Array,
): { slope: number; change: number } {
  let slope = 0;
  let squares = 0;
  for (let i = 0, k = 0; i < residual.length; i++) {
    let change = 0;
    for (let j = 0; j < p.length; j++, k++) change += jacobian[k] * p[j];
    slope += residual[i] * change;
    squares += change * change;
  }
  return { slope, change: Math.sqrt(squares) };
}

/** Raises D to the column norms of J where these are larger. */
function raiseScale(scale: Float64Array, jacobian: Float64Array): void {
  const columns = scale.length;
  for (let j = 0; j < columns; j++) {
    let squares = 0;
    for (let k = j; k < jacobian.length; k += columns) squares += jacobian[k] * jacobian[k];
    scale[j] = Math.max(scale[j], Math.sqrt(squares));
  }
}

function halfSquares(values: Float64Array): number {
  let squares = 0;
  for (let i = 0; i < values.length; i++) squares += values[i] * values[i];
  return squares / 2;
}

function scaledNorm(values: Float64Array, scale: Float64Array): number {
  let squares = 0;
  for (let j = 0; j < values.length; j++) squares += (scale[j] * values[j]) ** 2;
  return Math.sqrt(squares);
}
