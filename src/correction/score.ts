import { createEvaluation, evaluate } from "../prediction/evaluate.js";
import { evaluationSteps } from "../prediction/evaluationSteps.js";
import { colourScore } from "./goal.js";
import { type PaintCost, SPECTRAL_WEIGHT } from "./objective.js";
import type { Problem } from "./problem.js";

/**
 * The number by which mixes are ranked, in ΔE00, by the exact model: √(E² + ε·Σw·⟨(100·ΔR)²⟩ + paint²), E the colour
 * score of the job's objective, then the spectral tie-break and the cost of paint of `createObjective`.
 */
export function createScore(problem: Problem, paint: PaintCost): (additions: ArrayLike<number>) => number {
  const { model, goal, bench, work } = problem;
  const { pot } = bench;
  const at = createEvaluation(model);
  const grams = Float64Array.from(pot);
  const bands = model.set.grid.count;
  const perGram = paint.deltaE00 / pot.reduce((sum, amount) => sum + amount, 0);
  const steps = scoreSteps(problem);
  return (additions) => {
    work.spend(steps);
    let sum = 0;
    let squares = 0;
    for (let j = 0; j < grams.length; j++) {
      grams[j] = pot[j] + additions[j];
      sum += additions[j];
      squares += additions[j] * additions[j];
    }
    evaluate(model, grams, at);
    let missed = 0;
    for (const { weight, geometry, reflectance } of goal.spectra) {
      let ofSpectrum = 0;
      for (let b = 0; b < bands; b++) {
        const off = 100 * (at.reflectance[geometry * bands + b] - reflectance[b]);
        ofSpectrum += off * off;
      }
      missed += (weight * ofSpectrum) / bands;
    }
    const cost = perGram * perGram * (paint.of === "sum" ? sum * sum : squares);
    return Math.sqrt(colourScore(goal, at.lab) ** 2 + SPECTRAL_WEIGHT * missed + cost);
  };
}

/** Steps of work in one score. */
export function scoreSteps({ model, goal }: Problem): number {
  return evaluationSteps(model) + 150 * goal.aims.length + 3 * model.set.grid.count * goal.spectra.length;
}
