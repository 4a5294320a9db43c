import { checkEach, checkList, pathTo, type Range, SIZE_LIMIT } from "../check.js";
import { InputError } from "../InputError.js";
import { number } from "./number.js";
import type { Shape } from "./shape.js";

/**
 * A list of `min` to `max` entries; with `unique`, no two have the same under that key.
 * @__NO_SIDE_EFFECTS__
 */
export function list<T>(
  entry: Shape<T>,
  { min = 0, max = SIZE_LIMIT, unique }: { min?: number; max?: number; unique?: keyof T & string } = {},
): Shape<readonly T[]> {
  return {
    check: (value, path) => {
      const entries = Array.from(checkList(value, path, { min, max }), (one, i) =>
        entry.check(one, `${path}[${i}]`),
      );
      if (unique !== undefined) refuseTwins(entries, unique, path);
      return entries;
    },
    form: { kind: "list", entry, min, max },
  };
}

function refuseTwins<T>(entries: readonly T[], key: keyof T & string, path: string): void {
  const seen = new Set<unknown>();
  entries.forEach((entry, i) => {
    if (seen.has(entry[key])) {
      throw new InputError("duplicate", pathTo(`${path}[${i}]`, key), `"${entry[key]}" stands twice`);
    }
    seen.add(entry[key]);
  });
}

/**
 * Numbers in a range, in a list or typed array, which comes back itself and not as a copy.
 * @__NO_SIDE_EFFECTS__
 */
export function numbers(range: Range = {}): Shape<ArrayLike<number>> {
  return {
    check: (value, path) => {
      const list = checkList(value, path);
      checkEach(list, path, range);
      return list as ArrayLike<number>;
    },
    form: { kind: "list", entry: number(range), min: 0, max: SIZE_LIMIT },
  };
}
