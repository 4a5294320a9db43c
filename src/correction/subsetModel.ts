import { deltaE00Vector, deltaE00VectorSlopes } from "../colorimetry/deltaE00Vector.js";
import { createGradient, differentiate } from "../prediction/differentiate.js";
import { createEvaluation, evaluate } from "../prediction/evaluate.js";
import { labAt } from "./goal.js";
import { type PaintCost, SPECTRAL_WEIGHT } from "./objective.js";
import type { Problem } from "./problem.js";

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
  /** The model at `amounts` of `toners`, with a weight per aim in place of the goal's. */
  at(toners: readonly number[], amounts: Float64Array, weights: ArrayLike<number>): SubsetModel;
}

/**
 * The residuals of `createObjective` as normal equations, for many small sets of toners one after the other: what is
 * needed to search through subsets, where no system is larger than a handful. Rooms for the arithmetic are made once.
 */
export function createSubsetModels(problem: Problem, paint: PaintCost): SubsetModels {
  const { model, goal, bench } = problem;
  const { size } = model.coefficients;
  const bands = model.set.grid.count;
  const columns = 3 * model.geometries.length * model.lights.length;
  const grams = Float64Array.from(bench.pot);
  const at = createEvaluation(model);
  const slopes = createGradient(model);
  const perGram = paint.deltaE00 / bench.pot.reduce((sum, amount) => sum + amount, 0);

  return {
    at(toners, amounts, weights) {
      const width = toners.length;
      for (let i = 0; i < width; i++) grams[toners[i]] += amounts[i];
      evaluate(model, grams, at);
      for (let i = 0; i < width; i++) grams[toners[i]] = bench.pot[toners[i]];
      differentiate(model, at, slopes, toners);

      const gram = new Float64Array(width * width);
      const side = new Float64Array(width);
      const row = new Float64Array(width);
      const differences = new Float64Array(goal.aims.length);
      let squares = 0;
      const add = (residual: number, weight: number) => {
        squares += weight * residual * residual;
        for (let c = 0; c < width; c++) {
          const value = weight * row[c];
          side[c] -= value * residual;
          for (let d = c; d < width; d++) gram[c * width + d] += value * row[d];
        }
      };

      goal.aims.forEach(({ lab, metric, place }, aim) => {
        const now = labAt(at.lab, place);
        const vector = deltaE00Vector(lab, metric, now);
        differences[aim] = Math.sqrt(vector[0] ** 2 + vector[1] ** 2 + vector[2] ** 2);
        if (weights[aim] === 0) return;
        const by = deltaE00VectorSlopes(lab, metric, now);
        for (let axis = 0; axis < 3; axis++) {
          const [mL, ma, mb] = by[axis];
          for (let c = 0; c < width; c++) {
            const from = toners[c] * columns + place;
            row[c] = mL * slopes.lab[from] + ma * slopes.lab[from + 1] + mb * slopes.lab[from + 2];
          }
          add(vector[axis], weights[aim]);
        }
      });
      for (const { weight, geometry, reflectance } of goal.spectra) {
        const scale = (SPECTRAL_WEIGHT * weight * 1e4) / bands;
        for (let b = 0; b < bands; b++) {
          const place = geometry * bands + b;
          for (let c = 0; c < width; c++) row[c] = slopes.reflectance[toners[c] * size + place];
          add(at.reflectance[place] - reflectance[b], scale);
        }
      }
      if (perGram > 0) {
        if (paint.of === "sum") {
          row.fill(perGram);
          add(perGram * amounts.reduce((sum, amount) => sum + amount, 0), 1);
        } else {
          for (let c = 0; c < width; c++) {
            row.fill(0);
            row[c] = perGram;
            add(perGram * amounts[c], 1);
          }
        }
      }
      for (let c = 0; c < width; c++) for (let d = 0; d < c; d++) gram[c * width + d] = gram[d * width + c];
      return { toners, amounts, squares, differences, gram, side };
    },
  };
}
