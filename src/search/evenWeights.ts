import { sum } from "../core/sum.js";
import { type Aim, type Goal, strictestAllowance, worstOf } from "../problem/goal.js";
import type { SubsetModel } from "./subsetModel.js";

/**
 * Weights with which weighted least squares bounds the worst difference from below: Σ μ(sΔE)² ≤ max (sΔE)² for Σμ = 1,
 * s = strictest allowance ÷ own. Blends join in only while the best known is beyond what they are allowed: any mix
 * better than that then still has less.
 */
export function evenWeights(goal: Goal, best: number): Float64Array {
  return scaled(
    goal,
    goal.aims.map((aim) => (counts(goal, aim, best) ? 1 : 0)),
  );
}

/** The next weights after Lawson: each grows with its own difference, so that the worst come to weigh most. */
export function worseWeighMore(
  goal: Goal,
  weights: ArrayLike<number>,
  { differences }: SubsetModel,
  best: number,
): Float64Array {
  const strictest = strictestAllowance(goal.aims);
  return scaled(
    goal,
    goal.aims.map((aim, i) => {
      if (!counts(goal, aim, best)) return 0;
      const share = strictest / aim.allowed;
      return (weights[i] / (share * share)) * (differences[i] * share);
    }),
  );
}

/** Worst difference of a model's mix. */
export function worstAt(goal: Goal, { differences }: SubsetModel): number {
  return worstOf(goal, differences);
}

/**
 * Below this a bound by these weights says nothing: where blends count, a mix that scores less than the strictest
 * allowance may still leave them just within theirs.
 */
export function leastCounted({ aims }: Goal, weights: ArrayLike<number>): number {
  return aims.some(({ isEdge }, i) => !isEdge && weights[i] > 0) ? strictestAllowance(aims) : 0;
}

function counts({ aims }: Goal, { isEdge, allowed }: Aim, best: number): boolean {
  return allowed < Number.POSITIVE_INFINITY && (isEdge || best >= strictestAllowance(aims));
}

function scaled({ aims }: Goal, shares: readonly number[]): Float64Array {
  const strictest = strictestAllowance(aims);
  const total = sum(shares);
  return Float64Array.from(shares, (share, i) =>
    total > 0 ? (share / total) * (strictest / aims[i].allowed) ** 2 : 0,
  );
}
