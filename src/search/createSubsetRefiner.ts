import type { Work } from "../core/createWork.js";
import { type BoxedQuadratic, createBoxedQuadratic } from "../numeric/programmes/createBoxedQuadratic.js";
import { bowed } from "./mayBeOff.js";
import type { SubsetBox } from "./subsetBox.js";
import { createRoom, kept, type Room, type SubsetModel, type SubsetModels } from "./subsetModel.js";

/** How far a refinement goes: to compare subsets by thousands, or to the end. */
const QUICK = { steps: 12, gain: 1e-3 };
const TO_THE_END = { steps: 100, gain: 1e-9 };
const MOST_HALVINGS = 4;
/** The search ends when a step promises less than the share `gain` of the squares that are left, or less than this ΔE00². */
const LEAST_SQUARES = 1e-12;

/** Of the root of the squares where a refinement stopped, what bounds it: the rest it may still have left. */
export const CONVERGED = 0.999;

/** Refines the amounts of a few toners within a box from a start. */
export interface SubsetRefiner {
  best(
    toners: readonly number[],
    box: SubsetBox,
    start: ArrayLike<number>,
    weights: ArrayLike<number>,
  ): SubsetModel;
  /** The same from an end of a refinement to where nothing more is to be had. */
  toTheEnd(
    toners: readonly number[],
    box: SubsetBox,
    start: ArrayLike<number>,
    weights: ArrayLike<number>,
  ): SubsetModel;
  /** The same, given up where the root of the squares cannot come down to `bar`. */
  bestBelow(
    bar: number,
    toners: readonly number[],
    box: SubsetBox,
    start: ArrayLike<number>,
    weights: ArrayLike<number>,
  ): SubsetModel | undefined;
}

/**
 * Gauss–Newton over the additions of a few toners within stock and cup, with steps cut at the walls and halved where the
 * squares do not fall: enough to compare subsets by thousands; what is chosen is refined by Levenberg–Marquardt. Ends at a
 * point with its own linear model, or where a step promises less than is asked for, the model's error allowed for; or
 * where the work allowed is spent.
 */
export function createSubsetRefiner(models: SubsetModels, aims: number, work: Work): SubsetRefiner {
  const desks: Desk[] = [];
  const refine = (
    { steps: mostSteps, gain: leastGain, bar }: typeof QUICK & { readonly bar: number },
    toners: readonly number[],
    box: SubsetBox,
    start: ArrayLike<number>,
    weights: ArrayLike<number>,
  ): Room => {
    const width = toners.length;
    desks[width] ??= createDesk(width, aims);
    const { moved, low, high, solve, rooms } = desks[width];
    let [now, next] = rooms;
    intoBox(start, box, moved);
    models.at(toners, moved, weights, now);
    for (let steps = 0; steps < mostSteps && work.spend(2 * width ** 3); steps++) {
      const { amounts, squares, gram, side } = now;
      let sumAtMost = box.room;
      for (let i = 0; i < width; i++) {
        low[i] = box.low[i] - amounts[i];
        high[i] = box.high[i] - amounts[i];
        sumAtMost -= amounts[i];
      }
      const p = solve(gram, side, { low, high, sumAtMost: Math.max(0, sumAtMost) });
      const gain = promised(p, gram, side);
      if (!(gain > Math.max(leastGain * squares, LEAST_SQUARES))) break;
      if (Math.sqrt(Math.max(0, squares - gain)) - bowed(gain) > bar) break;
      let share = 2;
      do {
        share /= 2;
        for (let i = 0; i < width; i++) moved[i] = Math.max(box.low[i], amounts[i] + share * p[i]);
        models.at(toners, moved, weights, next);
      } while (!(next.squares < squares) && share > 0.5 ** MOST_HALVINGS);
      if (!(next.squares < squares)) break;
      [now, next] = [next, now];
    }
    return now;
  };
  return {
    best: (...asked) => kept(refine({ ...QUICK, bar: Number.POSITIVE_INFINITY }, ...asked)),
    toTheEnd: (...asked) => kept(refine({ ...TO_THE_END, bar: Number.POSITIVE_INFINITY }, ...asked)),
    bestBelow(bar, ...asked) {
      const found = refine({ ...QUICK, bar }, ...asked);
      return Math.sqrt(found.squares) * CONVERGED <= bar ? kept(found) : undefined;
    },
  };
}

/** What is written over again and again, for a number of toners. */
interface Desk {
  readonly rooms: readonly [Room, Room];
  readonly moved: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly solve: BoxedQuadratic;
}

function createDesk(width: number, aims: number): Desk {
  return {
    rooms: [createRoom(width, aims), createRoom(width, aims)],
    moved: new Float64Array(width),
    low: new Float64Array(width),
    high: new Float64Array(width),
    solve: createBoxedQuadratic(width),
  };
}

/** The amounts moved between the walls; what then lies above the least is shrunk until the cup holds it. */
function intoBox(amounts: ArrayLike<number>, { low, high, room }: SubsetBox, into: Float64Array): void {
  let sum = 0;
  let least = 0;
  for (let i = 0; i < into.length; i++) {
    into[i] = Math.max(low[i], Math.min(high[i], amounts[i]));
    sum += into[i];
    least += low[i];
  }
  if (sum <= room || sum <= least) return;
  const share = Math.max(0, room - least) / (sum - least);
  for (let i = 0; i < into.length; i++) into[i] = low[i] + share * (into[i] - low[i]);
}

function promised(p: Float64Array, gram: Float64Array, side: Float64Array): number {
  let gain = 0;
  for (let i = 0; i < p.length; i++) {
    let along = 0;
    for (let j = 0; j < p.length; j++) along += gram[i * p.length + j] * p[j];
    gain += p[i] * (2 * side[i] - along);
  }
  return gain;
}
