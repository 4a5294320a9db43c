/** Throws unless every number of `actual` is within `tolerance` of the largest of `expected` of its counterpart. */
export function expectClose(what, actual, expected, tolerance) {
  const size = Math.max(...Array.from(expected, Math.abs));
  if (actual.length !== expected.length) {
    throw new Error(`${what}: ${actual.length} numbers where the baseline has ${expected.length}`);
  }
  for (let i = 0; i < expected.length; i++) {
    if (!(Math.abs(actual[i] - expected[i]) <= tolerance * size)) {
      throw new Error(`${what}: ${actual[i]} where the baseline has ${expected[i]} (number ${i})`);
    }
  }
}
