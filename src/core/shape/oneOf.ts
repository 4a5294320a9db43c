import { checkOneOf } from "../check.js";
import type { InputErrorCode } from "../InputError.js";
import type { Shape } from "./shape.js";

/**
 * One of a few words; any other is refused with `code`.
 * @__NO_SIDE_EFFECTS__
 */
export function oneOf<const T extends string>(words: readonly T[], code?: InputErrorCode): Shape<T> {
  return { check: (value, path) => checkOneOf(value, path, words, code), form: { kind: "word", words } };
}

/**
 * A key of a table; any other word is refused with `code`.
 * @__NO_SIDE_EFFECTS__
 */
export function keyOf<T extends object>(table: T, code?: InputErrorCode): Shape<keyof T & string> {
  return oneOf(Object.keys(table) as (keyof T & string)[], code);
}
