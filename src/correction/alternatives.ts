import { sum } from "../core/sum.js";
import { after } from "../problem/after.js";
import { colourScore } from "../problem/goal.js";
import type { Problem } from "../problem/problem.js";
import { PAINT_IS_FREE } from "../problem/terms.js";
import type { FoundMix } from "../search/createSearch.js";
import { matches } from "../search/pickMix.js";
import { type MixSearch, searchMixes } from "../search/searchMixes.js";
import { choice } from "./choice.js";
import type { Alternative } from "./correction.js";

/** An alternative is named if its score is at most this much above the answer's, in ΔE00 (design value). */
const WORTH_NAMING = 1;

/** With as many pours, an alternative must be closer by this much, in ΔE00: less is a tie. */
const CLOSER = 0.01;

/** A thrifty alternative saves at least this share of the grams. */
const SAVES = 0.3;

/** Effort for alternatives, which need be good, not best. */
const EFFORT = Object.freeze({ rounds: 1, mostSubsets: 6 });

/** Cost of added paint in the thrifty alternative, ΔE00 per pot mass. */
const THRIFT = { deltaE00: 2, of: "sum" } as const;

/**
 * Other corrections that differ in kind from the answer: nothing at all, where that would be within tolerance as a blend; the
 * best with fewer pours; with less paint; and without each of the toners poured.
 */
export function alternatives(
  problem: Problem,
  { byPours }: MixSearch,
  answer: Float64Array,
  picked: FoundMix | undefined,
): readonly Alternative[] {
  const { model } = problem;
  const nothing = new Float64Array(answer.length);
  const found: Alternative[] = [];
  const offer = (additions: Float64Array, more: Pick<Alternative, "kind" | "without">) => {
    const one = choice(problem, additions);
    const key = JSON.stringify(one.additions);
    if (key === JSON.stringify(choice(problem, answer).additions)) return;
    if (found.some(({ additions: other }) => JSON.stringify(other) === key)) return;
    found.push({ ...more, ...one });
  };
  if (matches(asBlends(problem), nothing)) offer(nothing, { kind: "blend" });
  if (!picked) {
    const best = byPours.at(-1);
    if (best) offer(best.additions, { kind: "closer" });
    return found;
  }
  const isWorth = ({ score }: FoundMix) => score <= picked.score + WORTH_NAMING;
  const fewer = byPours.filter((mix) => mix.toners.length < picked.toners.length && isWorth(mix)).at(-1);
  if (fewer) offer(fewer.additions, { kind: "fewer-pours" });
  const missed = (additions: Float64Array) => colourScore(problem.goal, after(problem, additions).lab);
  const isCloser = ({ toners, score, additions }: FoundMix) =>
    (toners.length > picked.toners.length ||
      (toners.length === picked.toners.length && score < picked.score - CLOSER)) &&
    missed(additions) < missed(answer);
  const [closer] = byPours.filter(isCloser).slice(-1);
  if (closer) offer(closer.additions, { kind: "closer" });

  const most = picked.toners.length;
  if (problem.work.isSpent()) return found;
  const frugal = best(searchMixes(within(problem, most, []), THRIFT, EFFORT));
  if (frugal && isWorth(frugal) && sum(frugal.additions) < (1 - SAVES) * sum(answer)) {
    offer(frugal.additions, { kind: "less-paint" });
  }
  for (const toner of picked.toners) {
    if (problem.work.isSpent()) break;
    const other = best(searchMixes(within(problem, most, [toner]), PAINT_IS_FREE, EFFORT));
    if (other && isWorth(other)) {
      offer(other.additions, { kind: "other-toners", without: model.set.toners[toner].id });
    }
  }
  return found;
}

const best = ({ byPours }: MixSearch): FoundMix | undefined => byPours.at(-1);

/** The same problem with fewer pours, and without some toners. */
function within(problem: Problem, maxPours: number, without: readonly number[]): Problem {
  const stock = problem.bench.stock.map((grams, j) => (without.includes(j) ? 0 : grams));
  return { ...problem, bench: { ...problem.bench, maxPours, stock } };
}

/** Every target as if the colour might fade out over it. */
function asBlends({ goal, ...problem }: Problem): Problem {
  const aims = goal.aims.map((aim) => ({ ...aim, allowed: aim.allowedAsBlend }));
  return { ...problem, goal: { ...goal, aims } };
}
