import { createEvaluation, evaluate } from "../forward/evaluate.js";
import { evaluationSteps } from "../forward/evaluationSteps.js";
import { colourScore } from "./goal.js";
import type { Problem } from "./problem.js";
import { costOfPours, createTerms, type PaintCost } from "./terms.js";

/**
 * The number by which mixes are ranked, in ΔE00, by the exact model: √(E² + tie-break + paint + risk), E the colour
 * score of the job's objective, the rest the terms of `createTerms`.
 */
export function createScore(problem: Problem, paint: PaintCost): (additions: ArrayLike<number>) => number {
  const { model, goal, bench, work } = problem;
  const { pot } = bench;
  const at = createEvaluation(model);
  const grams = Float64Array.from(pot);
  const {
    ofMix: [, ...besideColour],
    ofPours,
  } = createTerms(problem, paint);
  const steps = scoreSteps(problem);
  return (additions) => {
    work.spend(steps);
    for (let j = 0; j < grams.length; j++) grams[j] = pot[j] + additions[j];
    evaluate(model, grams, at);
    let squares = colourScore(goal, at.lab) ** 2 + costOfPours(ofPours, additions);
    for (const term of besideColour) squares += term.squares(at, []);
    return Math.sqrt(squares);
  };
}

/** Steps of work in one score. */
export function scoreSteps({ model, goal }: Problem): number {
  return evaluationSteps(model) + 150 * goal.aims.length + 3 * model.set.grid.count * goal.spectra.length;
}
