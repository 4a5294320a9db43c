import { evaluationSteps, gradientSteps } from "../forward/evaluationSteps.js";
import { poured } from "../problem/poured.js";
import type { Problem } from "../problem/problem.js";
import { PAINT_IS_FREE } from "../problem/terms.js";
import { alikeToners } from "../search/collinearToners.js";
import { createSubsetRefiner } from "../search/createSubsetRefiner.js";
import { forSquares } from "../search/searchMixes.js";
import { boxOf } from "../search/subsetBox.js";
import { createSubsetModels } from "../search/subsetModel.js";
import type { UnusedToner } from "./correction.js";

/** A toner has no effect if a whole cup of it changes less than this, in ΔE00. */
const LEAST_EFFECT = 1e-3;

/**
 * Why each toner that is not poured is not, tried in the order: no stock, no room, no effect, the same as one that is poured; then
 * what one pour of it more would take off the score, before rounding: nothing, less than a pour is worth, or
 * something that the number of pours or the scale does not allow. Where the work allowed is spent the rest is left out.
 */
export function whyUnused(problem: Problem, additions: Float64Array): readonly UnusedToner[] {
  const { model, bench, work } = problem;
  const used = poured(additions);
  const grams = bench.pot.map((inPot, j) => inPot + additions[j]);
  const solved = forSquares(problem);
  const models = createSubsetModels(solved, PAINT_IS_FREE);
  const refiner = createSubsetRefiner(models, solved.goal.aims.length, work);
  const weights = solved.goal.aims.map(({ weight }) => weight);
  const optimum = (toners: readonly number[]) =>
    refiner.best(
      toners,
      { ...boxOf(bench, toners), low: toners.map(() => 0) },
      toners.map((j) => additions[j]),
      weights,
    );
  const now = Math.sqrt(optimum(used).squares);
  const alikeSteps = evaluationSteps(model) + gradientSteps(model, bench.pot.length);
  const reasonOf = (j: number): UnusedToner => {
    const toner = model.set.toners[j].id;
    const least = Math.max(bench.least[j], Number.MIN_VALUE);
    if (bench.stock[j] < least) return { toner, reason: "stock" };
    if (bench.room < least) return { toner, reason: "room" };
    const { gram } = models.at([j], Float64Array.of(0), weights);
    if (Math.sqrt(gram[0]) * Math.min(bench.stock[j], bench.room) < LEAST_EFFECT) {
      return { toner, reason: "no-effect" };
    }
    const alike = alikeToners(model, grams, j).find((other) => used.includes(other));
    if (alike !== undefined) return { toner, reason: "alike", alike: model.set.toners[alike].id };
    const { amounts, squares } = optimum([...used, j]);
    const gain = Math.max(0, now - Math.sqrt(squares));
    if (amounts[used.length] === 0 || gain === 0) return { toner, reason: "wrong-way" };
    if (gain < bench.pourWorth) return { toner, reason: "little-gain", gainDeltaE00: gain };
    const reason = used.length >= bench.maxPours ? "pours" : "scale-step";
    return { toner, reason, gainDeltaE00: gain };
  };
  const unused: UnusedToner[] = [];
  for (const j of bench.pot.keys()) {
    if (used.includes(j)) continue;
    const one = reasonOf(j);
    if (!work.spend(alikeSteps)) break;
    unused.push(one);
  }
  return unused;
}
