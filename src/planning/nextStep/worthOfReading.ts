import { drawColours } from "../../forecast/drawColours.js";
import type { NextCard } from "../../forecast/nextCard.js";
import { createRandom } from "../../numeric/probability/random.js";
import { type Goal, isWithin } from "../../problem/goal.js";
import { type LossOf, mean } from "./lossOf.js";

/** Further readings drawn, and worlds for each. */
const READINGS = 40;
const WORLDS = 40;

/**
 * By how much the expected loss falls when card and panels are read once more and the best step is taken after that. The
 * spread is that of the mean of `readings`; one more takes 1/(readings + 1) off its variance, and by as much it may move that
 * mean. `otherwise` is the least expected loss of the steps that another reading leaves as they are. The worlds are the
 * same for every reading drawn and for none, so that chance makes no worth where a reading moves nothing.
 */
export function worthOfReading(
  { mean: colour, covariance, ofReading }: NextCard,
  goal: Goal,
  { left, blended }: LossOf,
  {
    readings,
    otherwise,
    hasEdge,
    seed,
  }: {
    readonly readings: number;
    readonly otherwise: number;
    readonly hasEdge: boolean;
    readonly seed: number;
  },
): number {
  const gained = ofReading.map((value) => value / (readings + 1));
  const rest = covariance.map((value, i) => value - gained[i]);
  const moves = drawColours({ mean: colour, covariance: gained }, READINGS, createRandom(seed));
  const losses = moves.map((moved) => {
    const worlds = drawColours({ mean: moved, covariance: rest }, WORLDS, createRandom(seed + 1));
    return {
      isWithin: isWithin(goal, moved),
      left: mean(worlds.map(left)),
      blended: hasEdge ? mean(worlds.map(blended)) : Number.POSITIVE_INFINITY,
    };
  });
  const least = (one: (typeof losses)[number]) =>
    Math.min(otherwise, one.blended, one.isWithin ? one.left : Number.POSITIVE_INFINITY);
  const unread = {
    isWithin: isWithin(goal, colour),
    left: mean(losses.map((one) => one.left)),
    blended: mean(losses.map((one) => one.blended)),
  };
  return least(unread) - mean(losses.map(least));
}
