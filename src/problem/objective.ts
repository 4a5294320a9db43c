import { createGradient, differentiate } from "../forward/differentiate.js";
import { createEvaluation, evaluate } from "../forward/evaluate.js";
import type { Problem } from "./problem.js";
import { createTerms, type PaintCost, rowsOfPours } from "./terms.js";

/** Residuals of a mix as functions of the additions of some toners, in the form that the solver takes. */
export interface Objective {
  readonly residualCount: number;
  residuals(additions: ArrayLike<number>, out: Float64Array): void;
  /** Row-major, one column per toner in `free`. */
  jacobian(additions: ArrayLike<number>, out: Float64Array): void;
}

/**
 * All terms of the loss as residuals: Σr² is the weighted mean square of true ΔE00 plus tie-break, paint and risk, but
 * for a constant. `free` lists the toners that may be added, as indices into the toner set.
 */
export function createObjective(problem: Problem, free: readonly number[], paint: PaintCost): Objective {
  const { model, goal, bench } = problem;
  const { pot } = bench;
  const toners = pot.length;
  const { ofMix, ofPours } = createTerms(problem, paint);
  const pourRows = rowsOfPours(ofPours);
  const weights = goal.aims.map(({ weight }) => weight);
  const mixRows = ofMix.reduce((sum, { rows }) => sum + rows, 0);
  const rows = mixRows + toners;
  const grams = Float64Array.from(pot);
  const at = createEvaluation(model);
  const slopes = createGradient(model);
  const column = new Float64Array(mixRows);
  const residuals = (additions: ArrayLike<number>, out: Float64Array) => {
    free.forEach((toner, i) => {
      grams[toner] = pot[toner] + additions[i];
    });
    evaluate(model, grams, at);
    let row = 0;
    for (const term of ofMix) {
      term.look(at, weights, out, row);
      row += term.rows;
    }
    for (let r = 0; r < toners; r++) {
      let sum = 0;
      free.forEach((toner, i) => {
        sum += pourRows[r * toners + toner] * additions[i];
      });
      out[row + r] = sum;
    }
  };
  return {
    residualCount: rows,
    residuals,
    jacobian(additions, out) {
      residuals(additions, new Float64Array(rows));
      differentiate(model, at, slopes, free);
      const width = free.length;
      free.forEach((toner, c) => {
        let row = 0;
        for (const term of ofMix) {
          term.slopes(slopes, toner, column, row);
          row += term.rows;
        }
        for (let r = 0; r < mixRows; r++) out[r * width + c] = column[r];
        for (let r = 0; r < toners; r++) out[(row + r) * width + c] = pourRows[r * toners + toner];
      });
    },
  };
}
