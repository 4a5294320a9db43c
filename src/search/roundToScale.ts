import { createEvaluation, evaluate } from "../forward/evaluate.js";
import { stepsWithin } from "../numeric/scalar/stepsWithin.js";
import { withoutTail } from "../numeric/scalar/withoutTail.js";
import { weightedDifference } from "../problem/goal.js";
import { poured } from "../problem/poured.js";
import type { Problem } from "../problem/problem.js";
import { scoreSteps } from "../problem/score.js";

/** Up to this many pours every rounding up and down is tried; beyond it the search starts from the nearest. */
const MOST_CORNERS = 10;

/** Single steps taken from the best corner: a continuous answer that is an optimum needs a handful. */
const MOST_MOVES = 200;

/** Share by which whole steps together may pass the room, for rounding alone. */
const SLACK = 1e-9;

/**
 * Additions in whole steps of the scale or drops, within stock and room, by the exact model: the best corner of the cell
 * around the continuous answer, then single steps up or down while √Σw·ΔE00² still falls. A toner may round to
 * nothing, none is added to those poured. Those that are not rounded stay as they are.
 */
export function roundToScale(problem: Problem, additions: Float64Array): Float64Array {
  const { model, goal, bench, work } = problem;
  const steps = scoreSteps(problem);
  const { pot, stock, room, unit } = bench;
  const used = poured(additions).filter((j) => unit[j] > 0);
  if (used.length === 0) return additions;
  const most = used.map((j) => stepsWithin(Math.min(stock[j], room), unit[j]));
  const at = createEvaluation(model);
  const grams = pot.map((inPot, j) => inPot + additions[j]);
  const smooth = additions.reduce((sum, amount, j) => (unit[j] > 0 ? sum : sum + amount), 0);
  const score = (counts: readonly number[]): number => {
    const fits = counts.every((count, i) => count >= 0 && count <= most[i]);
    const total = counts.reduce((sum, count, i) => sum + count * unit[used[i]], smooth);
    if (!fits || total > room * (1 + SLACK)) return Number.POSITIVE_INFINITY;
    used.forEach((j, i) => {
      grams[j] = pot[j] + inGrams(counts[i], unit[j]);
    });
    work.spend(steps);
    evaluate(model, grams, at);
    return weightedDifference(goal, at.lab);
  };

  const floors = used.map((j) => stepsWithin(additions[j], unit[j]));
  let best = floors;
  let least = score(best);
  const tryAt = (counts: readonly number[]): boolean => {
    const value = score(counts);
    if (!(value < least)) return false;
    best = [...counts];
    least = value;
    return true;
  };
  if (used.length <= MOST_CORNERS) {
    for (let corner = 1; corner < 2 ** used.length; corner++) {
      tryAt(floors.map((count, i) => count + ((corner >> i) & 1)));
    }
  } else {
    tryAt(used.map((j) => Math.round(additions[j] / unit[j])));
  }
  const moved = () =>
    used.some((_, i) => [1, -1].some((by) => tryAt(best.map((count, n) => (n === i ? count + by : count)))));
  for (let moves = 0; moves < MOST_MOVES && !work.isSpent() && moved(); moves++);

  const rounded = additions.map((grams, j) => (unit[j] > 0 ? 0 : grams));
  used.forEach((j, i) => {
    rounded[j] = inGrams(best[i], unit[j]);
  });
  return rounded;
}

/** Whole steps in grams without the tail that binary fractions leave: 3 × 0.1 is 0.3. */
function inGrams(count: number, step: number): number {
  return withoutTail(count * step);
}
