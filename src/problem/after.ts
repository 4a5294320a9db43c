import { createEvaluation, type Evaluation, evaluate } from "../forward/evaluate.js";
import type { Problem } from "./problem.js";

/** The model at the pot with `additions` (in the order of the toner set) poured in. */
export function after({ model, bench: { pot } }: Problem, additions: ArrayLike<number>): Evaluation {
  const at = createEvaluation(model);
  evaluate(
    model,
    pot.map((grams, j) => grams + additions[j]),
    at,
  );
  return at;
}
