import type { Problem } from "../../problem/problem.js";
import { mix } from "../../toners/coefficients.js";

/**
 * All pots that additions can make, as a cone: column 0 is the pot as it stands, every other column one gram of a
 * toner that may be added. `k`, `s` are absorption (anchored) and scattering at `[column·size + band]`, both divided
 * band by band by the scattering of the reference mix; `mean` is the mean of `s` over the bands, 1 for that mix.
 */
export interface Reach {
  readonly columns: number;
  readonly size: number;
  /** Toners of the columns 1, 2, …, as indices into the toner set. */
  readonly free: readonly number[];
  /** Most grams of each of them, and of all together. */
  readonly most: readonly number[];
  readonly room: number;
  readonly k: Float64Array;
  readonly s: Float64Array;
  readonly mean: Float64Array;
  /** Scratch of `largestRatio`. */
  readonly poured: Uint8Array;
}

/** A linear function of the additions: f[0] + Σ f[column]·grams. */
export type Functional = Float64Array;

export function createReach({ model, bench }: Problem, reference: ArrayLike<number>): Reach {
  const { pot, stock, room } = bench;
  const { size, k: kOf, s: sOf } = model.coefficients;
  const { scale, ghost } = model.anchor;
  const free = Array.from(pot.keys()).filter((j) => Math.min(stock[j], room) > 0);
  const columns = free.length + 1;
  const scattering = new Float64Array(size);
  const potK = new Float64Array(size);
  const potS = new Float64Array(size);
  mix(model.coefficients, pot, potK, potS);
  mix(
    model.coefficients,
    pot.map((grams, j) => grams + reference[j]),
    new Float64Array(size),
    scattering,
  );
  const k = new Float64Array(columns * size);
  const s = new Float64Array(columns * size);
  const mean = new Float64Array(columns);
  for (let c = 0; c < columns; c++) {
    for (let b = 0; b < size; b++) {
      const from = c === 0 ? b : free[c - 1] * size + b;
      const absorbs = c === 0 ? Math.max(0, scale[b] * potK[b] + ghost[b]) : scale[b] * kOf[from];
      k[c * size + b] = absorbs / scattering[b];
      s[c * size + b] = (c === 0 ? potS[b] : sOf[from]) / scattering[b];
      mean[c] += s[c * size + b] / size;
    }
  }
  const most = free.map((j) => Math.min(stock[j], room));
  return { columns, size, free, most, room, k, s, mean, poured: new Uint8Array(columns) };
}

/** K or S of one band as a function of the additions, into `f`. */
export function bandFunctional(
  { columns, size }: Reach,
  of: Float64Array,
  band: number,
  f: Functional,
): void {
  for (let c = 0, at = band; c < columns; c++, at += size) f[c] = of[at];
}

/** Rounding of sums of a few dozen terms, outward. */
const ROUNDING = 1e-12;

/** More rounds than Dinkelbach's iteration ever takes. */
const MOST_ROUNDS = 60;

/**
 * The largest numerator/denominator over all additions within stock and room; the denominator is above 0 for the pot
 * and grows with every addition. Newton's way (Dinkelbach 1967) on numerator − ratio·denominator, whose maximum over
 * the additions is a greedy filling of the room: the largest slopes first, each as far as stock and room go.
 */
export function largestRatio(
  { columns, most, room, poured }: Reach,
  numerator: Functional,
  denominator: Functional,
): number {
  let ratio = numerator[0] / denominator[0];
  for (let round = 0; round < MOST_ROUNDS; round++) {
    let top = numerator[0];
    let bottom = denominator[0];
    let size = Math.abs(top);
    let left = room;
    poured.fill(0);
    while (left > 0) {
      let best = 0;
      let steepest = 0;
      for (let c = 1; c < columns; c++) {
        if (poured[c] === 1) continue;
        const slope = numerator[c] - ratio * denominator[c];
        if (slope > steepest) {
          steepest = slope;
          best = c;
        }
      }
      if (best === 0) break;
      const grams = Math.min(left, most[best - 1]);
      poured[best] = 1;
      left -= grams;
      top += numerator[best] * grams;
      bottom += denominator[best] * grams;
      size += Math.abs(numerator[best] * grams);
    }
    const next = top / bottom;
    if (!(next > ratio + ROUNDING * Math.abs(ratio))) return ratio + (ROUNDING * size) / bottom;
    ratio = next;
  }
  return Number.POSITIVE_INFINITY;
}
