import { InputError } from "../../core/InputError.js";
import { sum } from "../../core/sum.js";
import type { LinearConstraints } from "./linearConstraints.js";

/** Where x may be: between the bounds, each missing or infinite one being none, and Σx ≤ sumAtMost. */
export interface BoxLimits {
  readonly lower?: ArrayLike<number> | undefined;
  readonly upper?: ArrayLike<number> | undefined;
  readonly sumAtMost?: number | undefined;
}

/** `BoxLimits` with every bound written out. */
export interface Box {
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly sumAtMost: number;
}

/**
 * Writes out the bounds of `size` unknowns.
 * Throws `wrong-length`; `out-of-range` for a bound that is NaN or leaves no room (lower > upper, Σlower > sumAtMost).
 */
export function createBox(limits: BoxLimits, size: number): Box {
  const lower = bounds(limits.lower, size, Number.NEGATIVE_INFINITY, "lower");
  const upper = bounds(limits.upper, size, Number.POSITIVE_INFINITY, "upper");
  const { sumAtMost = Number.POSITIVE_INFINITY } = limits;
  for (let j = 0; j < size; j++) {
    if (
      !(lower[j] <= upper[j]) ||
      lower[j] === Number.POSITIVE_INFINITY ||
      upper[j] === Number.NEGATIVE_INFINITY
    ) {
      throw new InputError("out-of-range", `lower[${j}]`, `no number is between ${lower[j]} and ${upper[j]}`);
    }
  }
  if (!(sum(lower) <= sumAtMost)) {
    throw new InputError(
      "out-of-range",
      "sumAtMost",
      `${sumAtMost} is less than the sum of the lower bounds`,
    );
  }
  return { lower, upper, sumAtMost };
}

/** The limits of a box as G·x ≥ h. */
export interface BoxConstraints extends LinearConstraints {
  /** The unknown that a row bounds; −1 for the row of the sum. */
  readonly unknown: Int32Array;
  /** That unknown's bound, of which `atLeast` is the negative where it is an upper one. */
  readonly bound: Float64Array;
}

/** The finite limits as rows G·x ≥ h: x ≥ lower first, then −x ≥ −upper, then −Σx ≥ −sumAtMost. */
export function boxConstraints({ lower, upper, sumAtMost }: Box): BoxConstraints {
  const size = lower.length;
  const rows: { sign: 1 | -1; unknown: number; bound: number }[] = [];
  lower.forEach((bound, unknown) => {
    rows.push({ sign: 1, unknown, bound });
  });
  upper.forEach((bound, unknown) => {
    rows.push({ sign: -1, unknown, bound });
  });
  rows.push({ sign: -1, unknown: -1, bound: sumAtMost });

  const finite = rows.filter(({ bound }) => Number.isFinite(bound));
  const matrix = new Float64Array(finite.length * size);
  finite.forEach(({ sign, unknown }, i) => {
    const from = i * size + Math.max(unknown, 0);
    matrix.fill(sign, from, unknown < 0 ? from + size : from + 1);
  });
  return {
    matrix,
    atLeast: Float64Array.from(finite, ({ sign, bound }) => sign * bound),
    unknown: Int32Array.from(finite, ({ unknown }) => unknown),
    bound: Float64Array.from(finite, ({ bound }) => bound),
  };
}

/**
 * Replaces x by the nearest point of the box, clamp(x − μ) with the least μ ≥ 0 that keeps the sum, found by
 * bisection. The bounds and Σx ≤ sumAtMost (added in order) then hold exactly, not only to rounding.
 * Source: the projection on a simplex with bounds, e.g. Pardalos & Kovoor (1990).
 */
export function moveIntoBox(x: Float64Array, box: Box): void {
  const { lower, upper, sumAtMost } = box;
  const sumAt = (shift: number) => {
    let total = 0;
    for (let j = 0; j < x.length; j++) total += clamp(x[j] - shift, lower[j], upper[j]);
    return total;
  };
  let shift = 0;
  const excess = sumAt(0) - sumAtMost;
  if (excess > 0) {
    let tooSmall = 0;
    shift = excess;
    while (sumAt(shift) > sumAtMost) {
      tooSmall = shift;
      shift *= 2;
    }
    while (shift - tooSmall > Number.EPSILON * shift) {
      const middle = tooSmall + (shift - tooSmall) / 2;
      if (sumAt(middle) > sumAtMost) tooSmall = middle;
      else shift = middle;
    }
  }
  for (let j = 0; j < x.length; j++) x[j] = clamp(x[j] - shift, lower[j], upper[j]);
}

function bounds(
  values: ArrayLike<number> | undefined,
  size: number,
  missing: number,
  path: string,
): Float64Array {
  if (values === undefined) return new Float64Array(size).fill(missing);
  if (values.length !== size) {
    throw new InputError("wrong-length", path, `${values.length} bounds where ${size} are needed`);
  }
  return Float64Array.from(values);
}

const clamp = (value: number, low: number, high: number) => Math.max(low, Math.min(value, high));
