/** Nodes and weights of a rule for ∫f over an interval. */
export interface Rule {
  readonly nodes: readonly number[];
  readonly weights: readonly number[];
}

/** P₀ … P_most at x by Bonnet's recurrence. */
export function legendre(most: number, x: number): readonly number[] {
  const values = [1, x];
  for (let l = 1; l < most; l++) values.push(((2 * l + 1) * x * values[l] - l * values[l - 1]) / (l + 1));
  return values.slice(0, most + 1);
}

/** Gauss–Legendre with `count` ≥ 2 nodes on [low, high]: exact for polynomials up to degree 2·count − 1. */
export function gauss(count: number, low: number, high: number): Rule {
  const found = roots((x) => legendre(count, x)[count], count);
  const weights = found.map((x) => (2 * (1 - x * x)) / (count * legendre(count, x)[count - 1]) ** 2);
  return stretched({ nodes: found, weights }, low, high);
}

/** Gauss–Radau with `count` ≥ 2 nodes on [low, high], `high` among them: exact up to degree 2·count − 2. */
export function radau(count: number, low: number, high: number): Rule {
  const inner = roots((x) => {
    const p = legendre(count, x);
    return (p[count - 1] + p[count]) / (1 + x);
  }, count - 1);
  const weights = inner.map((x) => (1 - x) / (count * legendre(count, x)[count - 1]) ** 2);
  // The fixed node of the textbook rule is −1; turned round it is the upper end.
  const nodes = [...inner.map((x) => -x).reverse(), 1];
  return stretched({ nodes, weights: [...weights.reverse(), 2 / (count * count)] }, low, high);
}

function stretched({ nodes, weights }: Rule, low: number, high: number): Rule {
  const half = (high - low) / 2;
  return { nodes: nodes.map((x) => low + half * (1 + x)), weights: weights.map((w) => w * half) };
}

/** All `count` simple roots of a polynomial inside (−1, 1): brackets on a fine grid of angles, then bisection. */
function roots(of: (x: number) => number, count: number): readonly number[] {
  const steps = 400 * count;
  const at = (i: number) => -Math.cos((Math.PI * (i + 0.5)) / steps);
  const found: number[] = [];
  for (let i = 0; i + 1 < steps; i++) {
    let [low, high] = [at(i), at(i + 1)];
    if (of(low) * of(high) > 0) continue;
    for (let k = 0; k < 60; k++) {
      const middle = (low + high) / 2;
      if (of(low) * of(middle) > 0) low = middle;
      else high = middle;
    }
    found.push((low + high) / 2);
  }
  if (found.length !== count) throw new Error(`found ${found.length} of ${count} roots`);
  return found;
}
