import { boxedQuadratic } from "../numeric/boxedQuadratic.js";
import type { SubsetModel, SubsetModels } from "./subsetModel.js";

/** Least and most of each toner, and what the cup takes of them together. */
export interface SubsetBox {
  readonly low: readonly number[];
  readonly high: readonly number[];
  readonly room: number;
}

const MOST_STEPS = 12;
const MOST_HALVINGS = 4;
/** The search ends when a step promises less than this share of the squares that are left, or less than this ΔE00². */
const LEAST_GAIN = 1e-3;
const LEAST_SQUARES = 1e-12;

/**
 * Gauss–Newton over the additions of a few toners within stock and cup, with steps cut at the walls and halved where the
 * squares do not fall: enough to compare subsets by thousands; what is chosen is refined by Levenberg–Marquardt. Ends at a
 * point with its own linear model.
 */
export function refineSubset(
  models: SubsetModels,
  toners: readonly number[],
  { low, high, room }: SubsetBox,
  start: ArrayLike<number>,
  weights: ArrayLike<number>,
): SubsetModel {
  const begin = Float64Array.from(low, (least, i) => Math.max(least, Math.min(high[i], start[i])));
  let now = models.at(toners, intoCup(begin, low, room), weights);
  for (let steps = 0; steps < MOST_STEPS; steps++) {
    const { amounts, squares, gram, side } = now;
    const p = boxedQuadratic(gram, side, {
      low: low.map((wall, i) => wall - amounts[i]),
      high: high.map((wall, i) => wall - amounts[i]),
      sumAtMost: Math.max(0, room - amounts.reduce((sum, amount) => sum + amount, 0)),
    });
    const gain = promised(p, gram, side);
    if (!(gain > Math.max(LEAST_GAIN * squares, LEAST_SQUARES))) return now;
    let next = models.at(toners, moved(amounts, p, 1, low), weights);
    for (let halvings = 0, share = 0.5; !(next.squares < squares); halvings++, share /= 2) {
      if (halvings === MOST_HALVINGS) return now;
      next = models.at(toners, moved(amounts, p, share, low), weights);
    }
    now = next;
  }
  return now;
}

function moved(amounts: Float64Array, p: Float64Array, share: number, low: readonly number[]): Float64Array {
  return amounts.map((amount, i) => Math.max(low[i], amount + share * p[i]));
}

/** What lies above the least amounts, shrunk until the cup holds it. */
function intoCup(amounts: Float64Array, low: readonly number[], room: number): Float64Array {
  const sum = amounts.reduce((total, amount) => total + amount, 0);
  const least = low.reduce((total, amount) => total + amount, 0);
  if (sum <= room || sum <= least) return amounts;
  const share = Math.max(0, room - least) / (sum - least);
  return amounts.map((amount, i) => low[i] + share * (amount - low[i]));
}

function promised(p: Float64Array, gram: Float64Array, side: Float64Array): number {
  let gain = 0;
  for (let i = 0; i < p.length; i++) {
    let along = 0;
    for (let j = 0; j < p.length; j++) along += gram[i * p.length + j] * p[j];
    gain += p[i] * (2 * side[i] - along);
  }
  return gain;
}
