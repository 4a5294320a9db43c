import type { Problem } from "../problem/problem.js";
import { isReachable, oncePoured } from "./reachable.js";

/** How much too much of one addition can still be put right by adding the others, in this cup. */
export interface RecoveryMargin {
  /**
   * `up-to`: so much too much, and beyond it no way was found; `at-least`: eleven times the addition and still a way;
   * `all-there-is-room-for`: whatever cup and stock let be poured; `none`: no way even from the addition as meant.
   */
  readonly kind: "up-to" | "at-least" | "all-there-is-room-for" | "none";
  /** Of the addition, over and above it; 0 is the point of no return. */
  readonly share: number;
  readonly grams: number;
}

/** Over-pours that are tried in turn, as shares of the addition; then the last interval is halved. */
const RUNGS = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10];
const HALVINGS = 5;

/**
 * The largest over-pour of toner `j`, the other additions as meant, from which the solver finds a way to all targets by
 * adding alone. It was found reachable there and on every rung up to it; a larger one may be too: found, not proved.
 * `share` is short of the first failure by at most 1/32 of the distance of its rungs.
 */
export function recoveryMargin(problem: Problem, additions: Float64Array, j: number): RecoveryMargin {
  const wanted = additions[j];
  const answer = (kind: RecoveryMargin["kind"], share: number) => ({ kind, share, grams: share * wanted });
  const asMeant = oncePoured(problem, additions);
  if (!isReachable(asMeant)) return answer("none", 0);

  const most = Math.min(asMeant.bench.room, asMeant.bench.stock[j]) / wanted;
  const isReachableAt = (share: number) =>
    isReachable(
      oncePoured(
        asMeant,
        additions.map((_, i) => (i === j ? share * wanted : 0)),
      ),
    );
  const rungs = [...RUNGS.filter((rung) => rung < most), ...(most <= RUNGS[RUNGS.length - 1] ? [most] : [])];
  const failing = rungs.findIndex((rung) => !isReachableAt(rung));
  if (failing < 0) {
    const last = rungs[rungs.length - 1];
    return answer(last === most ? "all-there-is-room-for" : "at-least", last);
  }
  let good = failing === 0 ? 0 : rungs[failing - 1];
  let bad = rungs[failing];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (good + bad) / 2;
    if (isReachableAt(middle)) good = middle;
    else bad = middle;
  }
  return answer("up-to", good);
}
