import { createBoxedQuadratic } from "../numeric/createBoxedQuadratic.js";
import type { GramForm } from "../numeric/createSubsetSearch.js";
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

/** The best amounts of a few columns within a box by the linear model, and the squares that they leave. */
export function linearMix(
  { order, gram, right, constant }: GramForm,
  columns: readonly number[],
  { low, high, room }: SubsetBox,
): { readonly amounts: Float64Array; readonly squares: number } {
  const width = columns.length;
  const part = new Float64Array(width * width);
  const side = new Float64Array(width);
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
    sumAtMost -= low[i];
  }
  const p = createBoxedQuadratic(width)(part, side, {
    low: new Float64Array(width),
    high: high.map((most, i) => most - low[i]),
    sumAtMost: Math.max(0, sumAtMost),
  });
  for (let i = 0; i < width; i++) {
    let along = 0;
    for (let j = 0; j < width; j++) along += part[i * width + j] * p[j];
    squares += (along - 2 * side[i]) * p[i];
  }
  return { amounts: p.map((value, i) => low[i] + value), squares: Math.max(0, squares) };
}
