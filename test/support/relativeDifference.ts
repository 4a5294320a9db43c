/** |actual − expected| ÷ |expected|; 0 when both are 0, so that an exact limit must be met exactly. */
export function relativeDifference(actual: number, expected: number): number {
  if (actual === expected) return 0;
  return Math.abs(actual - expected) / Math.abs(expected);
}
