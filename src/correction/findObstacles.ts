import { sum } from "../core/sum.js";
import type { Problem } from "../problem/problem.js";
import type { PaintCost } from "../problem/terms.js";
import { matches as matchesWith } from "../search/pickMix.js";
import { FINE, refine, type Solution } from "../search/refine.js";
import type { Obstacle } from "./correction.js";

/** Weight that prefers taking out little paint. */
const LITTLE_TAKEN: PaintCost = { deltaE00: 0.1, of: "each" };

/** An excess below this share of the pot is not named. */
const LEAST_EXCESS = 1e-4;

/**
 * Why a match was not found, from the exact model: is it the rounding, the number of pours, the stock, the room, or
 * paint that would have to be taken out again? "toners" when even taking out would not do: no mix of them was found.
 * `full` is the solution before pours were dropped, `few` after, both unrounded.
 */
export function findObstacles(
  problem: Problem,
  full: Solution,
  few: Pick<Solution, "additions">,
): readonly Obstacle[] {
  const { model, bench } = problem;
  const { pot, stock, room } = bench;
  const ids = model.set.toners.map(({ id }) => id);
  const matches = ({ additions }: Pick<Solution, "additions">) => matchesWith(problem, additions);
  if (matches(few)) return [{ kind: "scale-step" }];
  if (matches(full)) return [{ kind: "pours" }];

  const obstacles: Obstacle[] = [];
  const total = sum(full.additions);
  if (total >= room * (1 - 1e-6)) obstacles.push({ kind: "room" });
  full.additions.forEach((grams, j) => {
    if (grams >= stock[j] * (1 - 1e-6)) obstacles.push({ kind: "stock", toner: ids[j] });
  });

  const all = ids.map((_, j) => j);
  const stocked = { ...bench, stock: stock.map(() => Number.POSITIVE_INFINITY) };
  // A trace of each toner stays: an empty pot has no colour to compute.
  const least = (j: number) => -0.999 * pot[j];
  const withTaking = refine({ ...problem, bench: stocked }, all, full.additions, {
    tolerances: FINE,
    paint: LITTLE_TAKEN,
    least,
  });
  const inPot = sum(pot);
  const excess = all.filter((j) => withTaking.additions[j] < -LEAST_EXCESS * inPot);
  if (excess.length > 0 && withTaking.cost < full.cost) {
    for (const j of excess) {
      obstacles.push({ kind: "too-much-in-pot", toner: ids[j], grams: -withTaking.additions[j] });
    }
  }
  if (!matches(withTaking)) obstacles.push({ kind: "toners" });
  return obstacles.length > 0 ? obstacles : [{ kind: "toners" }];
}
