import { levenbergMarquardt } from "../../numeric/leastSquares/levenbergMarquardt.js";
import type { FadeModel } from "./fadeModel.js";
import { fadeResiduals } from "./fadeResiduals.js";
import { laplacePosterior } from "./laplacePosterior.js";

/** The likeliest fade of a formula on the panels, with the posterior's covariance there (Laplace). */
export interface FadeFit {
  readonly model: FadeModel;
  /** The unknowns at the answer; see `FadeUnknowns`. */
  readonly z: Float64Array;
  /** Covariance of the unknowns and its Cholesky factor, row-major. */
  readonly covariance: Float64Array;
  readonly lower: Float64Array;
  /** Rows of bands and priors at the answer, and their slopes, row-major. */
  readonly residuals: Float64Array;
  readonly jacobian: Float64Array;
  /** ln of the probability of the readings given the formula, but for a constant common to all formulas. */
  readonly logEvidence: number;
  readonly converged: boolean;
}

/** Far finer than what the readings determine. */
const TOLERANCES = Object.freeze({ gradientTolerance: 1e-4, costTolerance: 1e-6, stepTolerance: 1e-5 });

/**
 * Levenberg–Marquardt on `fadeResiduals`; covariance (JᵀJ)⁻¹ and ln evidence −½Σr² − ½ ln det JᵀJ at the answer,
 * which is where the posterior is taken for normal (Laplace's approximation; Gelman et al. 2013, ch. 13).
 */
export function fitFade(model: FadeModel): FadeFit {
  const problem = fadeResiduals(model);
  const { x: z, cost, converged } = levenbergMarquardt(problem, TOLERANCES);
  const rows = problem.residualCount;
  const count = z.length;
  const residuals = new Float64Array(rows);
  const jacobian = new Float64Array(rows * count);
  problem.residuals(z, residuals);
  problem.jacobian(z, jacobian);
  const { covariance, lower, halfLogDeterminant } = laplacePosterior(jacobian, count);
  const logEvidence = -cost - halfLogDeterminant;
  return { model, z, covariance, lower, residuals, jacobian, logEvidence, converged };
}
