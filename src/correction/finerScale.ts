import { withoutTail } from "../numeric/scalar/withoutTail.js";
import { after } from "../problem/after.js";
import { weightedDifference } from "../problem/goal.js";
import type { Problem } from "../problem/problem.js";
import type { PaintCost } from "../problem/terms.js";
import { createSearch, type FoundMix } from "../search/createSearch.js";
import type { FinerScale } from "./correction.js";

/** What the toners of a mix would reach on a scale ten times as fine; null where none of them is weighed in steps. */
export function finerScale(
  problem: Problem,
  { toners, unrounded, score }: FoundMix,
  paint: PaintCost,
): FinerScale | null {
  const { bench } = problem;
  const weighed = toners.filter((j) => bench.unit[j] > 0 && bench.drop[j] === 0);
  if (weighed.length === 0) return null;
  const unit = bench.unit.map((step, j) => (bench.drop[j] > 0 ? step : step / 10));
  const least = bench.least.map((grams, j) => (grams === bench.unit[j] ? unit[j] : grams));
  const finer = { ...problem, bench: { ...bench, unit, least } };
  const found = createSearch(finer, paint).within(
    toners,
    toners.map((j) => unrounded[j]),
    score * (1 + 1e-9),
  );
  if (!found) return null;
  const stepGrams = withoutTail(bench.unit[weighed[0]] / 10);
  return {
    stepGrams,
    weightedDeltaE00: weightedDifference(problem.goal, after(problem, found.additions).lab),
  };
}
