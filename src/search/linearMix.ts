import { createBoxedQuadratic } from "../numeric/programmes/createBoxedQuadratic.js";
import type { GramForm } from "../numeric/programmes/createSubsetSearch.js";
import type { SubsetBox } from "./subsetBox.js";
import type { SubsetModel } from "./subsetModel.js";

/** A model as a function of the amounts themselves, for searches over subsets of its toners. */
export function gramForm({ amounts, squares, gram, side }: SubsetModel): GramForm {
  const order = amounts.length;
  const right = side.slice();
  let constant = squares;
  for (let i = 0; i < order; i++) {
    for (let j = 0; j < order; j++) right[i] += gram[i * order + j] * amounts[j];
    constant += (right[i] + side[i]) * amounts[i];
  }
  return { order, gram, right, constant };
}

/**
 * The form with its residuals counted for a share of what they are, but for an exact part of it, a form P of the pours
 * alone: s²‖Ax − b‖² + xᵀPx, for s²(‖Ax − b‖² + xᵀPx) + (1 − s²)xᵀPx.
 */
export function shareOfForm(
  { order, gram, right, constant }: GramForm,
  exact: Float64Array,
  share: number,
): GramForm {
  const square = share * share;
  return {
    order,
    gram: gram.map((value, i) => square * value + (1 - square) * exact[i]),
    right: right.map((value) => square * value),
    constant: square * constant,
  };
}

/** A mix by the linear model, and the squares that it leaves; written over by the next. */
export interface LinearMix {
  readonly amounts: Float64Array;
  readonly squares: number;
}

/** The best amounts of `width` columns within a box by a linear model. */
export function createLinearMix(
  { order, gram, right, constant }: GramForm,
  width: number,
): (columns: readonly number[], box: SubsetBox) => LinearMix {
  const part = new Float64Array(width * width);
  const side = new Float64Array(width);
  const none = new Float64Array(width);
  const range = new Float64Array(width);
  const amounts = new Float64Array(width);
  const solve = createBoxedQuadratic(width);
  return (columns, { low, high, room }) => {
    let squares = constant;
    let sumAtMost = room;
    for (let i = 0; i < width; i++) {
      let along = 0;
      for (let j = 0; j < width; j++) {
        const value = gram[columns[i] * order + columns[j]];
        part[i * width + j] = value;
        along += value * low[j];
      }
      side[i] = right[columns[i]] - along;
      squares -= (right[columns[i]] + side[i]) * low[i];
      range[i] = high[i] - low[i];
      sumAtMost -= low[i];
    }
    const p = solve(part, side, { low: none, high: range, sumAtMost: Math.max(0, sumAtMost) });
    for (let i = 0; i < width; i++) {
      let along = 0;
      for (let j = 0; j < width; j++) along += part[i * width + j] * p[j];
      squares += (along - 2 * side[i]) * p[i];
      amounts[i] = low[i] + p[i];
    }
    return { amounts, squares: Math.max(0, squares) };
  };
}
