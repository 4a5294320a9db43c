import type { ForwardModel } from "../forward/forwardModel.js";
import { stepsToReach } from "../numeric/scalar/stepsWithin.js";
import { withoutTail } from "../numeric/scalar/withoutTail.js";
import { after } from "../problem/after.js";
import { isWithin } from "../problem/goal.js";
import type { Problem } from "../problem/problem.js";
import { PAINT_IS_FREE } from "../problem/terms.js";
import { keepFewPours } from "../search/keepFewPours.js";
import { FINE, refine } from "../search/refine.js";
import { roundToScale } from "../search/roundToScale.js";
import { solve } from "../search/solve.js";
import { startFromSpectra } from "../search/startFromSpectra.js";
import { gramsById } from "../toners/pot.js";
import { choice } from "./choice.js";
import type { NewPot, PourOff, WayOut } from "./correction.js";

/** Input of the search for a way out. */
export interface WayOutOptions {
  /** Most that the cup holds, in grams. */
  readonly capacity: number;
  /** Additions in scale steps for a problem, as `correct` finds them. */
  readonly answer: (problem: Problem) => Float64Array;
}

/** Halvings of the share to pour off: it is then known to a thousandth of the pot. */
const HALVINGS = 10;

/** Number of larger shares tried before rounding is blamed. */
const MARGINS = [0, 0.02, 0.05, 0.1, 0.2];

/** Share of the old pot that stands for none of it; the refinement needs something to start from. */
const TRACE = 1e-9;

/**
 * What else can be done where no additions match: pour off the least share of the pot (all that is in it alike) so that
 * additions to what is left match within stock, cup, pours and scale; and a new pot from nothing. Both by the model tied
 * to the card: what the card says of the strength of the cans holds in a new pot too, what it says of the pot itself
 * leaves with it.
 */
export function findWayOut(problem: Problem, options: WayOutOptions): WayOut {
  const newPot = startNewPot(problem, options);
  return { pourOff: newPot?.isWithinTolerance ? pourOffLeast(problem, options) : null, newPot };
}

function pourOffLeast(problem: Problem, { capacity, answer }: WayOutOptions): PourOff | null {
  const { goal, bench } = problem;
  const inPot = total(bench.pot);
  const left = (share: number) => withLess(problem, 1 - share, capacity);
  const matches = (share: number) => {
    const part = left(share);
    return isWithin(goal, after(part, solve(part, PAINT_IS_FREE).additions).lab);
  };
  let [low, high] = [0, 1 - LEAST_KEPT];
  if (!matches(high)) return null;
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = (low + high) / 2;
    if (matches(middle)) high = middle;
    else low = middle;
  }
  for (const margin of MARGINS) {
    if (problem.work.isSpent()) return null;
    const grams = wholeSteps((high + margin * (1 - high)) * inPot, bench.step);
    if (!(grams < inPot)) return null;
    const part = left(grams / inPot);
    const then = choice(part, answer(part));
    if (then.isWithinTolerance) return { share: grams / inPot, grams, then };
  }
  return null;
}

/** A smaller share of the old pot than this is not kept. */
const LEAST_KEPT = 0.02;

function startNewPot(problem: Problem, { capacity }: WayOutOptions): NewPot | null {
  const { bench } = problem;
  const grams = Math.min(capacity, total(bench.pot));
  const empty = withLess(problem, TRACE, grams);
  const free = [...bench.pot.keys()].filter((j) => bench.stock[j] > 0);
  if (free.length === 0) return null;
  const spectral = startFromSpectra(empty, free, PAINT_IS_FREE);
  const sum = total(spectral);
  const start = free.map((j, i) => {
    const wanted = sum > 0 ? (spectral[i] / sum) * grams : grams / free.length;
    return Math.min(FILLED * wanted, bench.stock[j]);
  });
  const found = refine(empty, free, start, { tolerances: FINE, paint: PAINT_IS_FREE });
  let best: NewPot | null = null;
  for (const maxPours of [bench.maxPours, free.length]) {
    const part = { ...empty, bench: { ...empty.bench, maxPours } };
    const { additions } = keepFewPours(part, found, PAINT_IS_FREE);
    const recipe = roundToScale(part, filledUp(additions, bench.stock, grams));
    if (!(total(recipe) > 0)) continue;
    const { weightedDeltaE00, isWithinTolerance } = choice(part, recipe);
    const next = {
      grams: total(recipe),
      recipe: gramsById(recipe, problem.model.set.toners),
      weightedDeltaE00,
      isWithinTolerance,
    };
    if (!best || next.weightedDeltaE00 < best.weightedDeltaE00) best = next;
    if (best.isWithinTolerance) return best;
  }
  return best;
}

/** Where refinement of a new pot begins, as a share of what is wanted: it may still move both ways. */
const FILLED = 0.9;

/** The same recipe for the grams wanted, or as far as the stock goes. */
function filledUp(recipe: Float64Array, stock: Float64Array, grams: number): Float64Array {
  const sum = total(recipe);
  if (!(sum > 0)) return recipe;
  const most = recipe.reduce(
    (least, amount, j) => (amount > 0 ? Math.min(least, stock[j] / amount) : least),
    grams / sum,
  );
  return recipe.map((amount) => amount * most);
}

/** The problem with a share of the pot left in a cup that holds `capacity`. */
function withLess({ model, bench, ...rest }: Problem, share: number, capacity: number): Problem {
  const pot = bench.pot.map((grams) => grams * share);
  const { anchor } = model;
  const less: ForwardModel = {
    ...model,
    anchor: { ...anchor, ghost: anchor.ghost.map((value) => value * share) },
  };
  return { ...rest, model: less, bench: { ...bench, pot, room: Math.max(0, capacity - total(pot)) } };
}

/** Grams up to the next whole step of the scale. */
function wholeSteps(grams: number, step: number): number {
  return step > 0 ? withoutTail(stepsToReach(grams, step) * step) : grams;
}

function total(amounts: ArrayLike<number>): number {
  let sum = 0;
  for (let j = 0; j < amounts.length; j++) sum += amounts[j];
  return sum;
}
