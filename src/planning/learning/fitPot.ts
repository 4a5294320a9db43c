import { fitWithUnitPrior, leadingCovariance, type UnitPriorFit } from "../../numeric/fitWithUnitPrior.js";
import { beliefRoot, strengthsAt } from "./beliefRoot.js";
import type { Belief, CardModel, PotModel } from "./potModel.js";
import { createPotResiduals } from "./potResiduals.js";

/** The most probable strengths given the cards, and how probable the cards were. */
export interface PotFit extends Belief {
  /** χ² of all cards together; of what a card adds, the difference of two fits. */
  readonly chiSquare: number;
  /** ln of the probability density of the cards but for a constant per band. */
  readonly logEvidence: number;
  /** The multiplier of the last card's mis-pour, where it has one. */
  readonly misPour: number;
  /** Every unknown; where a fit of the same cards may start. */
  readonly unknowns: Float64Array;
  /** (R − R_card)/σ_R, card after card. */
  readonly residual: Float64Array;
}

/**
 * Strengths from all cards of one pot at once, with all that the cards may have in common or each for itself. To first
 * order this is the Kalman update on ln q with noise Σ dᵢdᵢᵀ + diag(σ_R·∂ln q/∂R)²; in R no dark band needs a
 * logarithm of its noise. Source: Kalman 1960.
 */
export function fitPot(
  pot: PotModel,
  belief: Belief,
  cards: readonly CardModel[],
  {
    start = [],
    giveUpAbove = Number.POSITIVE_INFINITY,
  }: { readonly start?: ArrayLike<number>; readonly giveUpAbove?: number } = {},
): PotFit {
  const { residualCount, unknownCount, evaluate } = createPotResiduals(pot, belief, cards);
  const fit = fitWithUnitPrior({
    residualCount,
    giveUpAbove,
    start: Float64Array.from({ length: unknownCount }, (_, i) => start[i] ?? 0),
    evaluate,
  });
  const residual = new Float64Array(residualCount);
  evaluate(fit.u, residual);
  return {
    ...posterior(fit, belief),
    chiSquare: fit.cost,
    logEvidence: fit.logEvidence,
    misPour: fit.u[unknownCount - 1] ?? 0,
    unknowns: fit.u,
    residual,
  };
}

function posterior(fit: UnitPriorFit, belief: Belief): Belief {
  const toners = belief.mean.length;
  const root = beliefRoot(belief);
  const mean = new Float64Array(toners);
  strengthsAt(belief, root, fit.u, mean);
  const inner = leadingCovariance(fit, toners);
  const covariance = new Float64Array(toners * toners);
  for (let i = 0; i < toners; i++) {
    for (let j = 0; j < toners; j++) {
      let sum = 0;
      for (let a = 0; a <= i; a++) {
        for (let b = 0; b <= j; b++)
          sum += root[i * toners + a] * inner[a * toners + b] * root[j * toners + b];
      }
      covariance[i * toners + j] = sum;
    }
  }
  return { mean, covariance };
}
