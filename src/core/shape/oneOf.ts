import { checkOneOf } from "../check.js";
import type { InputErrorCode } from "../InputError.js";
import type { Shape } from "./shape.js";

/**
 * One of a few words; any other is refused with `code`.
 * @__NO_SIDE_EFFECTS__
 */
export function oneOf<const T extends string>(words: readonly T[], code?: InputErrorCode): Shape<T> {
  return { check: (value, path) => checkOneOf(value, path, words, code), schema: { enum: words } };
}

/**
 * A key of a table; any other word is refused with `code`.
 * @__NO_SIDE_EFFECTS__
 */
export function keyOf<T extends object>(table: T, code?: InputErrorCode): Shape<keyof T & string> {
  return oneOf(keysOf(table), code);
}

/**
 * The keys of a table as words.
 * @__NO_SIDE_EFFECTS__
 */
export function keysOf<T extends object>(table: T): readonly (keyof T & string)[] {
  return Object.freeze(Object.keys(table) as (keyof T & string)[]);
}
