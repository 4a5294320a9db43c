import { sum } from "../core/sum.js";
import { createGradient, differentiate } from "../forward/differentiate.js";
import { createEvaluation, evaluate } from "../forward/evaluate.js";
import { evaluationSteps, gradientSteps } from "../forward/evaluationSteps.js";
import { nnls } from "../numeric/leastSquares/nnls.js";
import { after } from "../problem/after.js";
import { isWithin } from "../problem/goal.js";
import type { Problem } from "../problem/problem.js";
import { PAINT_IS_FREE } from "../problem/terms.js";
import { withRisk } from "../problem/withRisk.js";
import { solve } from "../search/solve.js";

/** The problem that is left once `additions` are poured: a fuller pot, less room, less in stock. */
export function oncePoured(problem: Problem, additions: ArrayLike<number>): Problem {
  const { pot, stock, room } = problem.bench;
  let poured = 0;
  for (let j = 0; j < pot.length; j++) poured += additions[j];
  return {
    ...problem,
    bench: {
      ...problem.bench,
      pot: pot.map((grams, j) => grams + additions[j]),
      stock: stock.map((grams, j) => Math.max(0, grams - additions[j])),
      room: Math.max(0, room - poured),
    },
  };
}

/**
 * Whether additions are found, of any number of toners and not in steps of the scale, that bring every target within
 * its tolerance: by a few quick steps, else by `solve`. True is checked with the exact model; false is not found, not
 * proved.
 */
export function isReachable(problem: Problem): boolean {
  return (
    isFoundQuickly(problem) ||
    isWithin(problem.goal, after(problem, solve(withRisk(problem, 0), PAINT_IS_FREE).additions).lab)
  );
}

const QUICK_STEPS = 3;

/** Cost of added paint, ΔE00 per pot mass, so that of many ways the one with least paint is tried. */
const PAINT = 0.02;

/** Gauss–Newton on the colours alone: Δ ≥ 0 by NNLS, shrunk to stock and room, checked with the exact model. */
function isFoundQuickly({ model, goal, bench, work }: Problem): boolean {
  const { pot, stock, room } = bench;
  const free = Array.from(pot.keys()).filter((j) => Math.min(stock[j], room) > 0);
  const at = createEvaluation(model);
  const slopes = createGradient(model);
  const width = free.length;
  const rows = 3 * goal.aims.length + 1;
  const matrix = new Float64Array(rows * width);
  const right = new Float64Array(rows);
  const colours = at.lab.length;
  const paint = PAINT / sum(pot);
  const grams = Float64Array.from(pot);
  for (let step = 0; ; step++) {
    work.spend(evaluationSteps(model) + 150 * goal.aims.length);
    evaluate(model, grams, at);
    if (isWithin(goal, at.lab)) return true;
    if (step === QUICK_STEPS || width === 0 || work.isSpent()) return false;
    work.spend(gradientSteps(model, width) + rows * width * (width + 10));
    differentiate(model, at, slopes, free);
    let row = 0;
    for (const { weight, metric, lab, place } of goal.aims) {
      const scale = Math.sqrt(weight);
      for (const [mL, ma, mb] of metric) {
        const along = (values: Float64Array, from: number) =>
          scale * (mL * values[from] + ma * values[from + 1] + mb * values[from + 2]);
        right[row] =
          scale *
          (mL * (lab[0] - at.lab[place]) +
            ma * (lab[1] - at.lab[place + 1]) +
            mb * (lab[2] - at.lab[place + 2]));
        free.forEach((j, i) => {
          const slope = along(slopes.lab, j * colours + place);
          matrix[row * width + i] = slope;
          right[row] += slope * (grams[j] - pot[j]);
        });
        row++;
      }
    }
    matrix.fill(paint, row * width);
    const { x } = nnls(matrix, right, rows, width);
    const wanted = x.map((amount, i) => Math.min(amount, stock[free[i]]));
    const total = sum(wanted);
    free.forEach((j, i) => {
      grams[j] = pot[j] + (total > room ? (wanted[i] * room) / total : wanted[i]);
    });
  }
}
