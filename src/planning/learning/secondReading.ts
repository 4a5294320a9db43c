import type { CardSpread } from "../../correction/forecast/cardWorlds.js";
import { drawColours } from "../../correction/forecast/drawColours.js";
import { totalSpread } from "../../correction/forecast/labSpread.js";
import { type Goal, isWithin } from "../../correction/goal.js";
import type { Random } from "../../numeric/random.js";
import { type LossOf, mean } from "../nextStep/lossOf.js";

/** Second readings drawn, and worlds for each. */
const READINGS = 40;
const WORLDS = 40;

/**
 * Expected loss once card and panels are read again and the best step then taken. The mean of two readings is off by
 * half the variance of one and by as much it may move from the first. `otherwise` is the least expected loss of the
 * steps that a second reading leaves as they are.
 */
export function secondReading(
  { mean: colour, spread }: CardSpread,
  goal: Goal,
  { left, blended }: LossOf,
  {
    otherwise,
    hasEdge,
    random,
  }: { readonly otherwise: number; readonly hasEdge: boolean; readonly random: Random },
): number {
  // The spread holds two cards of one pot, this one and another; it is this one that is read again.
  const gained = totalSpread(spread, ["reading", "gloss"]).map(
    (value, i) => value / 4 + spread.targetReading[i] / 2,
  );
  const rest = totalSpread(spread).map((value, i) => value - gained[i]);
  const losses = drawColours({ mean: colour, covariance: gained }, READINGS, random).map((moved) => {
    const worlds = drawColours({ mean: moved, covariance: rest }, WORLDS, random);
    const leaving = isWithin(goal, moved) ? mean(worlds.map(left)) : otherwise;
    const blending = hasEdge ? mean(worlds.map(blended)) : otherwise;
    return Math.min(otherwise, leaving, blending);
  });
  return mean(losses);
}
