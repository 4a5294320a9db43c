import { createEvaluation, evaluate } from "../prediction/evaluate.js";
import { weightedDifference } from "./goal.js";
import { poured } from "./keepFewPours.js";
import type { Problem } from "./problem.js";

/** Up to this many pours every rounding up and down is tried; beyond it the search starts from the nearest. */
const MOST_CORNERS = 10;

/** Single steps taken from the best corner: a continuous answer that is an optimum needs a handful. */
const MOST_MOVES = 200;

/** Slack in counting whole steps, so that 0.3 g is three steps of 0.1 g. */
const SLACK = 1e-9;

/**
 * Additions in whole steps of the scale, within stock and room, by the exact model: the best corner of the cell
 * around the continuous answer, then single steps up or down while √Σw·ΔE00² still falls. A toner may round to
 * nothing, none is added to those poured. With a step of 0 the additions come back as they are.
 */
export function roundToScale(problem: Problem, additions: Float64Array): Float64Array {
  const { model, goal, bench } = problem;
  const { pot, stock, room, step } = bench;
  if (step === 0) return additions;
  const used = poured(additions);
  const most = used.map((j) => Math.floor(Math.min(stock[j], room) / step + SLACK));
  const roomSteps = room / step + SLACK;
  const at = createEvaluation(model);
  const grams = Float64Array.from(pot);
  const score = (steps: readonly number[]): number => {
    const fits = steps.every((count, i) => count >= 0 && count <= most[i]);
    if (!fits || steps.reduce((sum, count) => sum + count, 0) > roomSteps) return Number.POSITIVE_INFINITY;
    used.forEach((j, i) => {
      grams[j] = pot[j] + inGrams(steps[i], step);
    });
    evaluate(model, grams, at);
    return weightedDifference(goal, at.lab);
  };

  const floors = used.map((j) => Math.floor(additions[j] / step + SLACK));
  let best = floors;
  let least = score(best);
  const tryAt = (steps: readonly number[]): boolean => {
    const value = score(steps);
    if (!(value < least)) return false;
    best = [...steps];
    least = value;
    return true;
  };
  if (used.length <= MOST_CORNERS) {
    for (let corner = 1; corner < 2 ** used.length; corner++) {
      tryAt(floors.map((count, i) => count + ((corner >> i) & 1)));
    }
  } else {
    tryAt(used.map((j) => Math.round(additions[j] / step)));
  }
  const moved = () =>
    used.some((_, i) => [1, -1].some((by) => tryAt(best.map((count, n) => (n === i ? count + by : count)))));
  for (let moves = 0; moves < MOST_MOVES && moved(); moves++);

  const rounded = new Float64Array(additions.length);
  used.forEach((j, i) => {
    rounded[j] = inGrams(best[i], step);
  });
  return rounded;
}

/** Whole steps in grams without the tail that binary fractions leave: 3 × 0.1 is 0.3. */
function inGrams(count: number, step: number): number {
  return Number((count * step).toPrecision(12));
}
