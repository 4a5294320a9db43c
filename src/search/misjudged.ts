import { solveTransposed, solveUpper } from "../numeric/linear/upperFactor.js";
import type { LatticeCell } from "./latticeNear.js";
import { mayBeOff, withinReach } from "./mayBeOff.js";
import type { SubsetBox } from "./subsetBox.js";
import type { SubsetModels } from "./subsetModel.js";

/** Share of the assumed error that is tolerated at the ends of a part; the rest is kept for the points between. */
const SHARE = 0.5;

/** Errors below this share of the score to beat are ignored. */
export const SLIGHT = 0.02;

/** Where to cut a part. */
export interface Cut {
  /** Place among the toners of the part. */
  readonly toner: number;
  readonly at: number;
}

/**
 * Tries the linear model of a part against the exact one at the ends of what is within reach of `bar`: for each toner
 * where its amount is least and most, moved into the box. Where the exact squares are less than the model's by more than
 * is allowed for, the part is to be cut halfway there; undefined where there is no such place or no lattice between.
 */
export function misjudged(
  models: SubsetModels,
  { model, triangle, right, rest, lead }: LatticeCell,
  { low, high, room }: SubsetBox,
  unit: ArrayLike<number>,
  { weights, bar }: { readonly weights: ArrayLike<number>; readonly bar: number },
): Cut | undefined {
  const { toners, amounts } = model;
  const order = toners.length;
  const radius = Math.sqrt(Math.max(0, withinReach(bar, rest, lead)));
  const centre = solveUpper(triangle, order, right);
  let cut: Cut | undefined;
  let worst = 1;
  for (let i = 0; i < order; i++) {
    const width = 2 * unit[toners[i]];
    if (!(high[i] - low[i] > width)) continue;
    const towards = furthest(triangle, order, i, radius);
    for (const sign of [-1, 1]) {
      const end = centre.map((amount, c) => Math.min(high[c], Math.max(low[c], amount + sign * towards[c])));
      const share = withinCup(amounts, end, room);
      for (let c = 0; c < order; c++) end[c] = amounts[c] + share * (end[c] - amounts[c]);
      if (!(Math.abs(end[i] - amounts[i]) > width)) continue;
      const said = Math.sqrt(Math.max(0, rest + squaresOf(triangle, end, centre)));
      const exact = Math.sqrt(models.squaresAt(toners, end, weights));
      const allowed = mayBeOff(Math.sqrt(squaresOf(triangle, end, amounts)));
      const ratio = (said - exact) / (SHARE * allowed + SLIGHT * bar);
      if (ratio > worst) {
        worst = ratio;
        cut = { toner: i, at: (amounts[i] + end[i]) / 2 };
      }
    }
  }
  return cut;
}

/** From the centre of ‖R·d‖ ≤ radius to where entry `i` is greatest; along entry `i` without end where R does not hold it. */
function furthest(triangle: Float64Array, order: number, i: number, radius: number): Float64Array {
  const unit = new Float64Array(order);
  unit[i] = 1;
  if (triangle[i * (order + 1)] === 0) return unit.map((value) => value * Number.MAX_VALUE);
  const transposed = solveTransposed(triangle, order, unit);
  const length = Math.hypot(...transposed);
  return solveUpper(triangle, order, transposed).map((value) => (radius * value) / length);
}

/** The share of the way to `end` that the cup allows. */
function withinCup(from: Float64Array, end: Float64Array, room: number): number {
  let sum = 0;
  let rise = 0;
  for (let c = 0; c < from.length; c++) {
    sum += from[c];
    rise += end[c] - from[c];
  }
  return rise > 0 ? Math.min(1, Math.max(0, (room - sum) / rise)) : 1;
}

/** ‖R·(x − y)‖². */
function squaresOf(triangle: Float64Array, x: Float64Array, y: Float64Array): number {
  const order = x.length;
  let squares = 0;
  for (let i = 0; i < order; i++) {
    let value = 0;
    for (let j = i; j < order; j++) value += triangle[i * order + j] * (x[j] - y[j]);
    squares += value * value;
  }
  return squares;
}
