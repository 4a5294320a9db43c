import { createGradient, differentiate } from "../forward/differentiate.js";
import { createEvaluation, evaluate } from "../forward/evaluate.js";
import { evaluationSteps, gradientSteps } from "../forward/evaluationSteps.js";
import { dot } from "../numeric/linear/dot.js";
import { choleskyInPlace, solveLower } from "../numeric/linear/triangularSolve.js";
import type { Problem } from "../problem/problem.js";
import { createTerms, type PaintCost } from "../problem/terms.js";

/** The objective near some additions of some toners: ‖r + J·d‖² = squares − 2·sideᵀd + dᵀ·gram·d. */
export interface SubsetModel {
  readonly toners: readonly number[];
  readonly amounts: Float64Array;
  readonly squares: number;
  /** ΔE00 of every aim. */
  readonly differences: Float64Array;
  /** Row-major, one row and column per toner. */
  readonly gram: Float64Array;
  readonly side: Float64Array;
}

export interface SubsetModels {
  /**
   * The model at `amounts` of `toners`, with a weight per aim in place of the goal's, written into a room of the same
   * number of toners where one is given.
   */
  at(
    toners: readonly number[],
    amounts: ArrayLike<number>,
    weights: ArrayLike<number>,
    room?: Room,
  ): SubsetModel;
  /** Grams that no mix of these toners exceeds whose pours alone cost less than a score. */
  mostGrams(toners: readonly number[], score: number): number;
  /** Its squares alone. */
  squaresAt(toners: readonly number[], amounts: ArrayLike<number>, weights: ArrayLike<number>): number;
}

/** A model to be written over. */
export type Room = { -readonly [Key in keyof SubsetModel]: SubsetModel[Key] };

/**
 * The terms of the loss as normal equations, for many small sets of toners one after the other: what is needed to search
 * through subsets, where no system is larger than a handful. Rooms for the arithmetic are made once.
 */
export function createSubsetModels(problem: Problem, paint: PaintCost): SubsetModels {
  const { model, goal, bench, work } = problem;
  const all = bench.pot.length;
  const grams = Float64Array.from(bench.pot);
  const at = createEvaluation(model);
  const slopes = createGradient(model);
  const { ofMix, ofPours, differences } = createTerms(problem, paint);
  const rows = ofMix.reduce((sum, term) => sum + term.rows, 0);
  const constant = ofMix.reduce((sum, term) => sum + term.constant, 0);
  const residual = new Float64Array(rows);
  const columns: Float64Array[] = [];
  const evaluationOf = evaluationSteps(model) + AIM_STEPS * goal.aims.length;
  const modelOf = (width: number) => gradientSteps(model, width) + width * (width + 2) * rows;

  const moveTo = (toners: readonly number[], amounts: ArrayLike<number>): void => {
    for (let i = 0; i < toners.length; i++) grams[toners[i]] += amounts[i];
    evaluate(model, grams, at);
    for (let i = 0; i < toners.length; i++) grams[toners[i]] = bench.pot[toners[i]];
  };

  return {
    at(toners, amounts, weights, room = createRoom(toners.length, goal.aims.length)) {
      const width = toners.length;
      const { gram, side } = room;
      work.spend(evaluationOf + modelOf(width));
      moveTo(toners, amounts);
      differentiate(model, at, slopes, toners);
      let row = 0;
      for (const term of ofMix) {
        term.look(at, weights, residual, row);
        for (let c = 0; c < width; c++) {
          columns[c] ??= new Float64Array(rows);
          term.slopes(slopes, toners[c], columns[c], row);
        }
        row += term.rows;
      }
      let squares = constant + dot(residual, residual);
      for (let c = 0; c < width; c++) {
        let pulled = -dot(columns[c], residual);
        const line = toners[c] * all;
        let along = 0;
        for (let d = 0; d < width; d++) along += ofPours[line + toners[d]] * amounts[d];
        squares += along * amounts[c];
        pulled -= along;
        side[c] = pulled;
        room.amounts[c] = amounts[c];
        for (let d = 0; d <= c; d++) {
          const value = dot(columns[c], columns[d]) + ofPours[line + toners[d]];
          gram[c * width + d] = value;
          gram[d * width + c] = value;
        }
      }
      room.differences.set(differences);
      room.toners = toners;
      room.squares = squares;
      return room;
    },

    // Σd ≤ score·‖L⁻¹·1‖ where dᵀPd ≤ score², P = L·Lᵀ.
    mostGrams(toners, score) {
      const order = toners.length;
      const lower = new Float64Array(order * order);
      for (let i = 0; i < order; i++) {
        for (let j = 0; j <= i; j++) lower[i * order + j] = ofPours[toners[i] * all + toners[j]];
      }
      if (!choleskyInPlace(lower, 0, order)) return Number.POSITIVE_INFINITY;
      const ones = new Float64Array(order).fill(1);
      solveLower(lower, order, ones, 0, 1);
      return score * Math.sqrt(dot(ones, ones));
    },

    squaresAt(toners, amounts, weights) {
      work.spend(evaluationOf);
      moveTo(toners, amounts);
      let squares = 0;
      for (const term of ofMix) squares += term.squares(at, weights);
      for (let c = 0; c < toners.length; c++) {
        for (let d = 0; d < toners.length; d++) {
          squares += amounts[c] * ofPours[toners[c] * all + toners[d]] * amounts[d];
        }
      }
      return squares;
    },
  };
}

/** Steps of work in one colour difference. */
const AIM_STEPS = 150;

/** Allocates a subset model of `toners` toners. */
export function createRoom(toners: number, aims: number): Room {
  return {
    toners: [],
    amounts: new Float64Array(toners),
    squares: Number.NaN,
    differences: new Float64Array(aims),
    gram: new Float64Array(toners * toners),
    side: new Float64Array(toners),
  };
}

/** A model that stays when its room is used again. */
export function kept({ toners, amounts, squares, differences, gram, side }: SubsetModel): SubsetModel {
  return {
    toners,
    amounts: amounts.slice(),
    squares,
    differences: differences.slice(),
    gram: gram.slice(),
    side: side.slice(),
  };
}
