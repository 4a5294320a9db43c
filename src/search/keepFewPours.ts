import { evaluationSteps, gradientSteps } from "../forward/evaluationSteps.js";
import { nnls } from "../numeric/leastSquares/nnls.js";
import { poured } from "../problem/poured.js";
import type { Problem } from "../problem/problem.js";
import type { PaintCost } from "../problem/terms.js";
import { strengthOf } from "./collinearToners.js";
import { linearise, triangleForm } from "./linearise.js";
import { FINE, refine, type Solution } from "./refine.js";

/**
 * Drops one pour after the other until no more than `maxPours` are left, each time the one that the objective,
 * made linear at the given solution and solved again without it by NNLS, misses least; then refines what remains.
 * Backward elimination: a good few pours, not proved to be the best few.
 */
export function keepFewPours(problem: Problem, solution: Solution, paint: PaintCost): Solution {
  const { additions, iterations } = solution;
  const used = strongest(problem, poured(additions), additions);
  if (used.length === 0) return solution;
  let amounts: Float64Array = Float64Array.from(used, (j) => additions[j]);
  const { triangle: full, right } = triangleForm(linearise(problem, used, amounts, paint));
  let triangle = full;
  while (pours(amounts) > problem.bench.maxPours) {
    problem.work.spend(4 * used.length ** 4);
    ({ triangle, amounts } = withoutLeastMissed(triangle, right, amounts));
  }
  const kept = used.filter((_, i) => amounts[i] > 0);
  const start = amounts.filter((grams) => grams > 0);
  if (kept.length === 0) return { ...solution, additions: new Float64Array(additions.length) };
  const few = refine(problem, kept, start, { tolerances: FINE, paint });
  return { ...few, iterations: iterations + few.iterations };
}

/**
 * Above this number of toners, those that change the reflectance least are dropped first: eliminating one by one is
 * slow.
 */
const MOST_ELIMINATED = 16;

function strongest(
  { model, bench, work }: Problem,
  used: readonly number[],
  additions: Float64Array,
): readonly number[] {
  const most = Math.max(MOST_ELIMINATED, bench.maxPours);
  if (used.length <= most) return used;
  work.spend(used.length * (evaluationSteps(model) + gradientSteps(model, 1)));
  const grams = bench.pot.map((inPot, j) => inPot + additions[j]);
  const effect = new Map(used.map((j) => [j, additions[j] * strengthOf(model, grams, j)]));
  return [...used]
    .sort((a, b) => (effect.get(b) ?? 0) - (effect.get(a) ?? 0))
    .slice(0, most)
    .sort((a, b) => a - b);
}

const pours = (amounts: Float64Array): number => amounts.filter((grams) => grams > 0).length;

/** The best amounts with one pour fewer; a column of zeros is one that NNLS never takes. */
function withoutLeastMissed(
  triangle: Float64Array,
  right: Float64Array,
  amounts: Float64Array,
): { readonly triangle: Float64Array; readonly amounts: Float64Array } {
  const width = amounts.length;
  let least = Number.POSITIVE_INFINITY;
  let best = { triangle, amounts };
  for (let out = 0; out < width; out++) {
    if (amounts[out] === 0) continue;
    const without = triangle.slice();
    for (let i = out; i < without.length; i += width) without[i] = 0;
    const { x, residualNorm } = nnls(without, right, width, width);
    if (residualNorm < least) {
      least = residualNorm;
      best = { triangle: without, amounts: x };
    }
  }
  return best;
}
