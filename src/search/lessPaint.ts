import { sum } from "../core/sum.js";
import type { Problem } from "../problem/problem.js";
import { PAINT_IS_FREE } from "../problem/terms.js";
import { FREE_SHARE } from "../problem/weighMix.js";
import { createSearch, type FoundMix } from "./createSearch.js";
import { matches } from "./pickMix.js";

/** Ratio between the sizes of two cups tried in turn; the sizes do not depend on the job's cup. */
const RUNG = 1.25;
const HALVINGS = 8;

/**
 * Mixes of the same toners from smaller cups: what the last grams of a large addition are worth is seen one cup after
 * the other, and how small a cup may be where the mix still matches by halving.
 */
export function lessPaint(problem: Problem, mix: FoundMix): readonly FoundMix[] {
  const { bench, work } = problem;
  const inPot = sum(bench.pot);
  const grams = sum(mix.additions);
  const found: FoundMix[] = [];
  const inCup = (room: number): FoundMix | undefined => {
    const smaller = createSearch({ ...problem, bench: { ...bench, room } }, PAINT_IS_FREE);
    const start = mix.toners.map((j) => (mix.unrounded[j] * room) / grams);
    const one = smaller.within(mix.toners, start, Number.POSITIVE_INFINITY);
    if (one) found.push(one);
    return one;
  };
  const isMatch = (one: FoundMix | undefined) => one !== undefined && matches(problem, one.additions);
  let least = matches(problem, mix.additions) ? grams : 0;
  let below = 0;
  for (let room = FREE_SHARE * inPot; room < grams && !work.isSpent(); room *= RUNG) {
    const one = inCup(room);
    if (least === 0) continue;
    if (isMatch(one)) {
      least = room;
      break;
    }
    below = room;
  }
  for (let halving = 0; halving < HALVINGS && least > 0 && !work.isSpent(); halving++) {
    const room = (below + least) / 2;
    if (isMatch(inCup(room))) least = room;
    else below = room;
  }
  return found;
}
