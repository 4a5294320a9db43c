import { solveTransposed, solveUpper, upperFactor } from "./upperFactor.js";

/** Where a step may go: low ≤ p ≤ high entry by entry, low ≤ 0 ≤ high, and Σp ≤ sumAtMost with sumAtMost ≥ 0. */
export interface StepLimits {
  readonly low: ArrayLike<number>;
  readonly high: ArrayLike<number>;
  readonly sumAtMost: number;
}

/** Keeps a Gram matrix with dependent columns regular; far below what any of its entries is good for. */
const RIDGE = 1e-9;

/** A wall is reached, and a multiplier has the wrong sign, beyond this share. */
const SLACK = 1e-9;

/**
 * The p that minimises pᵀGp − 2·sideᵀp within the limits, by a primal active set that begins at p = 0: for a handful
 * of unknowns, thousands of times. Source: Nocedal & Wright 2006, algorithm 16.3.
 */
export function boxedQuadratic(
  gram: Float64Array,
  side: Float64Array,
  { low, high, sumAtMost }: StepLimits,
): Float64Array {
  const order = side.length;
  const p = new Float64Array(order);
  /** −1 at the lower wall, 1 at the upper, 0 free. */
  const wall = new Int8Array(order);
  let isFull = false;
  for (let turns = 0; turns < 10 * order + 10; turns++) {
    const free: number[] = [];
    for (let i = 0; i < order; i++) if (wall[i] === 0) free.push(i);
    const downhill = new Float64Array(order);
    for (let i = 0; i < order; i++) {
      downhill[i] = side[i];
      for (let j = 0; j < order; j++) downhill[i] -= gram[i * order + j] * p[j];
    }
    const { step, price } = freeStep(gram, downhill, free, isFull);

    let reach = 1;
    let hit = -1;
    let rise = 0;
    free.forEach((i, a) => {
      rise += step[a];
      const distance = step[a] < 0 ? low[i] - p[i] : high[i] - p[i];
      if (Math.abs(distance) < Math.abs(step[a]) * reach) {
        reach = Math.max(0, distance / step[a]);
        hit = i;
      }
    });
    const sum = p.reduce((total, value) => total + value, 0);
    const fills = !isFull && rise > 0 && sumAtMost - sum < rise * reach;
    if (fills) reach = Math.max(0, (sumAtMost - sum) / rise);
    free.forEach((i, a) => {
      p[i] += reach * step[a];
    });
    if (fills) {
      isFull = true;
      continue;
    }
    if (hit >= 0) {
      wall[hit] = step[free.indexOf(hit)] < 0 ? -1 : 1;
      p[hit] = wall[hit] < 0 ? low[hit] : high[hit];
      continue;
    }
    // At the least within the walls held: let go of the one that holds it back most.
    let worst = -1;
    let most = 0;
    for (let i = 0; i < order; i++) {
      let slope = side[i] - price;
      for (let j = 0; j < order; j++) slope -= gram[i * order + j] * p[j];
      const pull = -wall[i] * slope;
      const scale = Math.sqrt(gram[i * order + i]) || 1;
      if (wall[i] !== 0 && low[i] < high[i] && pull > SLACK * Math.abs(side[i]) && pull / scale > most) {
        most = pull / scale;
        worst = i;
      }
    }
    if (isFull && price < 0) isFull = false;
    else if (worst < 0) return p;
    else wall[worst] = 0;
  }
  return p;
}

/** The step to the least in the free entries; where the sum is held, the price of one more of it besides. */
function freeStep(
  gram: Float64Array,
  downhill: Float64Array,
  free: readonly number[],
  isFull: boolean,
): { readonly step: Float64Array; readonly price: number } {
  const order = downhill.length;
  const n = free.length;
  if (n === 0) return { step: new Float64Array(0), price: isFull ? Math.max(...downhill) : 0 };
  const g = new Float64Array(n * n);
  // What has no effect of its own can still make way for what has.
  const floor = RIDGE * Math.max(...free.map((i) => gram[i * order + i])) || 1;
  free.forEach((i, a) => {
    free.forEach((j, c) => {
      g[a * n + c] = gram[i * order + j];
    });
    g[a * n + a] = g[a * n + a] > 0 ? g[a * n + a] * (1 + RIDGE) : floor;
  });
  const r = upperFactor(g, n);
  const solve = (b: Float64Array) => solveUpper(r, n, solveTransposed(r, n, b));
  const step = solve(Float64Array.from(free, (i) => downhill[i]));
  if (!isFull) return { step, price: 0 };
  const ones = solve(new Float64Array(n).fill(1));
  const total = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0);
  const price = total(step) / total(ones);
  return { step: step.map((value, a) => value - price * ones[a]), price };
}
