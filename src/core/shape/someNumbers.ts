import type { Range } from "../check.js";
import { number } from "./number.js";
import { type Optional, optional } from "./optional.js";
import { type Fields, record } from "./record.js";
import type { Shape } from "./shape.js";

/**
 * A record of numbers with the keys of `like`, each of which may be left out and then stays out: all lie in `range` but
 * those that `ranges` names.
 * @__NO_SIDE_EFFECTS__
 */
export function someNumbers<T extends object>(
  like: T,
  range: Range,
  ranges: { readonly [K in keyof T]?: Range } = {},
): Shape<Partial<T>> {
  const fields = Object.keys(like).map((key): [string, Optional<number>] => [
    key,
    optional(number(ranges[key as keyof T] ?? range)),
  ]);
  return record<Partial<T>>(Object.fromEntries(fields) as unknown as Fields<Partial<T>>);
}
