/**
 * P(χ² > x) with k > 0 degrees of freedom: the regularised upper incomplete gamma function Q(k/2, x/2), by its series
 * below x/2 = k/2 + 1 and by Lentz's continued fraction above. Relative error ≤ 1e−10 down to 1e−300, then 0.
 * Source: NIST DLMF 8.7.1, 8.9.2; Lentz's method as in Press et al. 2007.
 */
export function chiSquareTail(x: number, k: number): number {
  if (!(x > 0)) return 1;
  const a = k / 2;
  const z = x / 2;
  const front = Math.exp(a * Math.log(z) - z - logGamma(a));
  if (z < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n < MOST_TERMS && term > sum * Number.EPSILON; n++) {
      term *= z / (a + n);
      sum += term;
    }
    return 1 - front * sum;
  }
  let b = z + 1 - a;
  let c = 1 / SMALLEST;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < MOST_TERMS; n++) {
    const numerator = -n * (n - a);
    b += 2;
    d = 1 / awayFromZero(numerator * d + b);
    c = awayFromZero(b + numerator / c);
    const factor = c * d;
    fraction *= factor;
    if (Math.abs(factor - 1) <= Number.EPSILON) break;
  }
  return front * fraction;
}

const MOST_TERMS = 10_000;
const SMALLEST = 1e-300;

const awayFromZero = (value: number): number => (Math.abs(value) < SMALLEST ? SMALLEST : value);

/** ln Γ(a) for a > 0: Stirling's series at a + 10, stepped down by Γ(a + 1) = aΓ(a). NIST DLMF 5.11.1. */
function logGamma(a: number): number {
  let shift = 0;
  let at = a;
  for (; at < 10; at++) shift += Math.log(at);
  const inverse = 1 / (at * at);
  const series = (1 / 12 - inverse * (1 / 360 - inverse * (1 / 1260 - inverse / 1680))) / at;
  return (at - 0.5) * Math.log(at) - at + Math.log(2 * Math.PI) / 2 + series - shift;
}
