/**
 * Lagrange interpolation between equally spaced points, as ASTM E2022 does it: cubic through the two points on
 * either side, quadratic through the three end points in the first and the last interval.
 * Writes the coefficients of four consecutive points (the fourth is 0 for a quadratic) to `coefficients` and
 * returns the index of the first of them. `position` counts in steps, 0 … count − 1; count ≥ 3.
 * Source: ASTM E2022; the coefficients add up to 1 and reproduce polynomials of their degree.
 */
export function lagrangeStencil(position: number, count: number, coefficients: Float64Array): number {
  const interval = Math.max(0, Math.min(Math.floor(position), count - 2));
  if (interval === 0 || interval === count - 2) {
    const first = interval === 0 ? 0 : count - 3;
    const u = position - first;
    coefficients[0] = ((u - 1) * (u - 2)) / 2;
    coefficients[1] = u * (2 - u);
    coefficients[2] = (u * (u - 1)) / 2;
    coefficients[3] = 0;
    return first;
  }
  const t = position - interval;
  coefficients[0] = (-t * (t - 1) * (t - 2)) / 6;
  coefficients[1] = ((t + 1) * (t - 1) * (t - 2)) / 2;
  coefficients[2] = (-(t + 1) * t * (t - 2)) / 2;
  coefficients[3] = ((t + 1) * t * (t - 1)) / 6;
  return interval - 1;
}
