import { type ColourSpread, spread } from "../belief/spread.js";
import type { Random } from "../numeric/probability/random.js";
import { after } from "../problem/after.js";
import type { PreparedProblem } from "../problem/problem.js";
import { drawColours } from "./drawColours.js";

/** The next card after some additions: the colours that the tied model predicts, those of panels, and how they spread. */
export interface NextCard extends ColourSpread {
  readonly mean: Float64Array;
}

/** What any additions would lead to, by the belief that the cards of the pot leave. */
export function nextCard(
  { problem, belief }: Pick<PreparedProblem, "problem" | "belief">,
  additions: Float64Array,
): NextCard {
  const next = spread(belief, additions);
  const mean = next.lab.slice();
  mean.set(after(problem, additions).lab);
  return { ...next, mean };
}

/** Cards drawn, all doubts together. */
export function drawCards(
  { mean, covariance }: Pick<NextCard, "mean" | "covariance">,
  count: number,
  random: Random,
): readonly Float64Array[] {
  return drawColours({ mean, covariance }, count, random);
}
