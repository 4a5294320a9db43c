import type { Range } from "../check.js";
import { number } from "./number.js";
import { optional } from "./optional.js";
import { type Fields, record } from "./record.js";
import type { Shape } from "./shape.js";

/**
 * A record in which every key may be left out and then has its default.
 * @__NO_SIDE_EFFECTS__
 */
export function withDefaults<T extends object>(
  defaults: T,
  shapes: { readonly [K in keyof T]-?: Shape<T[K]> },
): Shape<T> {
  const keys = Object.keys(defaults) as (keyof T & string)[];
  const fields = Object.fromEntries(keys.map((key) => [key, optional(shapes[key], defaults[key] as never)]));
  return record<T, Partial<T>>(fields as unknown as Fields<T, Partial<T>>);
}

/**
 * The same of numbers: all lie in `range` but those that `ranges` names.
 * @__NO_SIDE_EFFECTS__
 */
export function numbersWithDefaults<T extends object>(
  defaults: T,
  range: Range,
  ranges: { readonly [K in keyof T]?: Range } = {},
): Shape<T> {
  const shapes = Object.keys(defaults).map((key) => [key, number(ranges[key as keyof T] ?? range)]);
  return withDefaults(defaults, Object.fromEntries(shapes));
}
