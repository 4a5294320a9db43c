/** Where a step may go: low ≤ p ≤ high entry by entry, low ≤ 0 ≤ high, and Σp ≤ sumAtMost with sumAtMost ≥ 0. */
export interface StepLimits {
  readonly low: ArrayLike<number>;
  readonly high: ArrayLike<number>;
  readonly sumAtMost: number;
}

/** Solves for p; the answer is written over by the next call. */
export type BoxedQuadratic = (gram: Float64Array, side: Float64Array, limits: StepLimits) => Float64Array;

/** Keeps a Gram matrix with dependent columns regular; far below what any of its entries is good for. */
const RIDGE = 1e-9;

/** A multiplier has the wrong sign beyond this share. */
const SLACK = 1e-9;

/**
 * The p that minimises pᵀGp − 2·sideᵀp within the limits, by a primal active set that begins at p = 0: for systems of
 * `order` unknowns, thousands of times, in rooms made once. Source: Nocedal & Wright 2006, algorithm 16.3.
 */
export function createBoxedQuadratic(order: number): BoxedQuadratic {
  const p = new Float64Array(order);
  /** −1 at the lower wall, 1 at the upper, 0 free. */
  const wall = new Int8Array(order);
  const slope = new Float64Array(order);
  const free = new Int32Array(order);
  const factor = new Float64Array(order * order);
  const step = new Float64Array(order);
  const ones = new Float64Array(order);

  /** Cholesky factor of the free part of G; what has no effect of its own can still make way for what has. */
  const factorise = (gram: Float64Array, n: number): void => {
    let floor = 0;
    for (let a = 0; a < n; a++) floor = Math.max(floor, gram[free[a] * (order + 1)]);
    floor = floor > 0 ? RIDGE * floor : 1;
    for (let a = 0; a < n; a++) {
      const square = gram[free[a] * (order + 1)];
      const least = square > 0 ? RIDGE * square : floor;
      for (let c = 0; c <= a; c++) {
        let value = gram[free[a] * order + free[c]];
        if (a === c) value += least;
        for (let e = 0; e < c; e++) value -= factor[a * n + e] * factor[c * n + e];
        factor[a * n + c] = a === c ? Math.sqrt(Math.max(value, least)) : value / factor[c * n + c];
      }
    }
  };
  const solve = (b: Float64Array, n: number): void => {
    for (let a = 0; a < n; a++) {
      for (let e = 0; e < a; e++) b[a] -= factor[a * n + e] * b[e];
      b[a] /= factor[a * n + a];
    }
    for (let a = n - 1; a >= 0; a--) {
      for (let e = a + 1; e < n; e++) b[a] -= factor[e * n + a] * b[e];
      b[a] /= factor[a * n + a];
    }
  };

  return (gram, side, { low, high, sumAtMost }) => {
    p.fill(0);
    for (let i = 0; i < order; i++) {
      wall[i] = low[i] === 0 && side[i] < 0 ? -1 : high[i] === 0 && side[i] > 0 ? 1 : 0;
    }
    let isFull = false;
    for (let turns = 0; turns < 10 * order + 10; turns++) {
      let n = 0;
      let sum = 0;
      for (let i = 0; i < order; i++) {
        if (wall[i] === 0) free[n++] = i;
        sum += p[i];
        let value = side[i];
        for (let j = 0; j < order; j++) value -= gram[i * order + j] * p[j];
        slope[i] = value;
      }
      // To the least in the free entries; where the sum is held, at the price of one more of it.
      let price = 0;
      if (n > 0) {
        factorise(gram, n);
        for (let a = 0; a < n; a++) step[a] = slope[free[a]];
        solve(step, n);
        if (isFull) {
          ones.fill(1, 0, n);
          solve(ones, n);
          let steps = 0;
          let all = 0;
          for (let a = 0; a < n; a++) {
            steps += step[a];
            all += ones[a];
          }
          price = steps / all;
          for (let a = 0; a < n; a++) step[a] -= price * ones[a];
        }
      } else if (isFull) price = Math.max(...slope);

      let reach = 1;
      let hit = -1;
      let rise = 0;
      for (let a = 0; a < n; a++) {
        rise += step[a];
        const distance = (step[a] < 0 ? low : high)[free[a]] - p[free[a]];
        if (Math.abs(distance) < Math.abs(step[a]) * reach) {
          reach = Math.max(0, distance / step[a]);
          hit = a;
        }
      }
      const fills = !isFull && rise > 0 && sumAtMost - sum < rise * reach;
      if (fills) reach = Math.max(0, (sumAtMost - sum) / rise);
      for (let a = 0; a < n; a++) p[free[a]] += reach * step[a];
      if (fills) {
        isFull = true;
        continue;
      }
      if (hit >= 0) {
        const i = free[hit];
        wall[i] = step[hit] < 0 ? -1 : 1;
        p[i] = wall[i] < 0 ? low[i] : high[i];
        continue;
      }
      // At the least within the walls held: let go of the one that holds it back most.
      let worst = -1;
      let most = 0;
      for (let i = 0; i < order; i++) {
        if (wall[i] === 0 || !(low[i] < high[i])) continue;
        let value = side[i] - price;
        for (let j = 0; j < order; j++) value -= gram[i * order + j] * p[j];
        const pull = -wall[i] * value;
        const scale = Math.sqrt(gram[i * (order + 1)]) || 1;
        if (pull > SLACK * Math.abs(side[i]) && pull / scale > most) {
          most = pull / scale;
          worst = i;
        }
      }
      if (isFull && price < 0) isFull = false;
      else if (worst < 0) return p;
      else wall[worst] = 0;
    }
    return p;
  };
}
