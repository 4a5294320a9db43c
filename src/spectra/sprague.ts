/** CIE 167:2005: two points beyond each end from the six end points, as numerators over 209, outermost first. */
const BEYOND = [
  [884, -1960, 3033, -2648, 1080, -180],
  [508, -540, 488, -367, 144, -24],
] as const;
const BEYOND_DIVISOR = 209;

/** The values with the two points beyond each end that CIE 167 prescribes; at least six values. */
export function extendForSprague(values: ArrayLike<number>): Float64Array {
  const count = values.length;
  const extended = new Float64Array(count + 4);
  for (let i = 0; i < count; i++) extended[i + 2] = values[i];
  BEYOND.forEach((numerators, outer) => {
    let before = 0;
    let after = 0;
    for (let i = 0; i < 6; i++) {
      before += numerators[i] * values[i];
      after += numerators[i] * values[count - 1 - i];
    }
    extended[outer] = before / BEYOND_DIVISOR;
    extended[count + 3 - outer] = after / BEYOND_DIVISOR;
  });
  return extended;
}

/**
 * The quintic between the two middle points of six, at `position` in steps from the first value (0 … count − 1).
 * `extended` comes from `extendForSprague`. Source: Sprague 1880 in the form of CIE 167:2005.
 */
export function spragueAt(extended: Float64Array, position: number): number {
  const interval = Math.min(Math.floor(position), extended.length - 6);
  const x = position - interval;
  const p0 = extended[interval];
  const p1 = extended[interval + 1];
  const p2 = extended[interval + 2];
  const p3 = extended[interval + 3];
  const p4 = extended[interval + 4];
  const p5 = extended[interval + 5];
  const a1 = (2 * p0 - 16 * p1 + 16 * p3 - 2 * p4) / 24;
  const a2 = (-p0 + 16 * p1 - 30 * p2 + 16 * p3 - p4) / 24;
  const a3 = (-9 * p0 + 39 * p1 - 70 * p2 + 66 * p3 - 33 * p4 + 7 * p5) / 24;
  const a4 = (13 * p0 - 64 * p1 + 126 * p2 - 124 * p3 + 61 * p4 - 12 * p5) / 24;
  const a5 = (-5 * p0 + 25 * p1 - 50 * p2 + 50 * p3 - 25 * p4 + 5 * p5) / 24;
  return p2 + x * (a1 + x * (a2 + x * (a3 + x * (a4 + x * a5))));
}
