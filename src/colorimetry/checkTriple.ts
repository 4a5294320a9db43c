import { checkNumber, checkNumbers, checkRecord, type Range } from "../core/check.js";

/** Far beyond every colour, and so small that no formula here overflows with it. */
const FARTHEST = 1e6;
/** A white that is darker than this is none. */
const DARKEST_WHITE = 1e-6;

/** Three numbers of a colour. Throws `missing`, `wrong-type`, `wrong-length`, `not-finite`, `out-of-range`. */
export function checkTriple(value: unknown, path: string): void {
  // The usual case in a few comparisons; what is left is looked at slowly, for its reason and place.
  if (isTriple(value)) return;
  checkNumbers(value, path, 3, { min: -FARTHEST, max: FARTHEST });
}

/** X, Y, Z of a white: each more than 0. Throws as `checkTriple` does. */
export function checkWhite(value: unknown, path: string): void {
  if (isTriple(value) && Math.min(value[0], value[1], value[2]) >= DARKEST_WHITE) return;
  checkNumbers(value, path, 3, { min: DARKEST_WHITE, max: FARTHEST });
}

/** The two colours of a difference. */
export function checkPair(reference: unknown, sample: unknown): void {
  checkTriple(reference, "reference");
  checkTriple(sample, "sample");
}

/** Factors of a colour difference by name, each in its range; absent options are the caller's defaults. */
export function checkFactors(value: unknown, ranges: Readonly<Record<string, Range>>): void {
  if (value === undefined) return;
  const record = checkRecord(value, "options");
  for (const [key, range] of Object.entries(ranges)) checkNumber(record[key], `options.${key}`, range);
}

/** A factor that something is divided by. */
export const DIVISOR: Range = { min: DARKEST_WHITE, max: FARTHEST };
/** A factor that may be 0. */
export const FACTOR: Range = { min: 0, max: FARTHEST };

function isTriple(value: unknown): value is readonly [number, number, number] {
  return (
    Array.isArray(value) && value.length === 3 && isNear(value[0]) && isNear(value[1]) && isNear(value[2])
  );
}

const isNear = (value: unknown): boolean => typeof value === "number" && Math.abs(value) <= FARTHEST;
