import { didYouMean } from "./didYouMean.js";
import { InputError, type InputErrorCode } from "./InputError.js";
import { isPrintableLine } from "./printable.js";

/** Largest list, text or record that is accepted; anything longer is a mistake or an attack. */
export const SIZE_LIMIT = 10_000;

export interface Range {
  readonly min?: number;
  readonly max?: number;
  /** Refuse `min` itself too; refuse `max` itself too. */
  readonly aboveMin?: boolean;
  readonly belowMax?: boolean;
  /** Accept 0 too, which then means none. */
  readonly orZero?: boolean;
  /** Whole numbers only. */
  readonly whole?: boolean;
}

const named = (value: unknown): string => {
  if (value === null) return "null";
  if (Array.isArray(value)) return "a list";
  if (typeof value !== "object") return `a ${typeof value}`;
  return isPlain(value) ? "a record" : "an instance of a class";
};

const refuseType = (value: unknown, wanted: string, path: string): never => {
  if (value === undefined) throw new InputError("missing", path, `${wanted} is needed here`);
  throw new InputError("wrong-type", path, `${wanted} is needed here, not ${named(value)}`);
};

/** A finite number inside a range. Throws `missing`, `wrong-type`, `not-finite`, `out-of-range`. */
export function checkNumber(value: unknown, path: string, range: Range = {}): number {
  if (typeof value !== "number") return refuseType(value, "a number", path);
  if (!Number.isFinite(value)) throw new InputError("not-finite", path, `${value} is not a finite number`);
  const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY } = range;
  const { aboveMin = false, belowMax = false, orZero = false, whole = false } = range;
  if (whole && !Number.isInteger(value)) {
    throw new InputError("wrong-type", path, `${value} is not a whole number`);
  }
  if (orZero && value === 0) return value;
  if (value < min || (aboveMin && value === min)) {
    const least = `${orZero ? "0, or " : ""}${aboveMin ? "more than" : "at least"} ${min}`;
    throw new InputError("out-of-range", path, `${value} is too small: ${least}`);
  }
  if (value > max || (belowMax && value === max)) {
    const reason = `${value} is too large: ${belowMax ? "less than" : "at most"} ${max}`;
    throw new InputError("out-of-range", path, reason);
  }
  return value;
}

/** A whole number inside a range. */
export function checkInteger(value: unknown, path: string, range: Range = {}): number {
  return checkNumber(value, path, { ...range, whole: true });
}

/**
 * An id, a name or another text of one line that is not empty and in which every character shows as itself: names go
 * to terminals, labels and spreadsheets. Throws `missing`, `wrong-type`, `too-large`.
 */
export function checkText(value: unknown, path: string): string {
  const text = checkProse(value, path);
  if (isPrintableLine(text)) return text;
  throw new InputError(
    "wrong-type",
    path,
    "a text of one line, without control characters and marks of direction",
  );
}

/** A text of any characters, such as a note of several lines; where it is shown it must be made safe. */
export function checkProse(value: unknown, path: string): string {
  if (typeof value !== "string") return refuseType(value, "a text", path);
  if (value.trim() === "") throw new InputError("missing", path, "the text is empty");
  if (value.length > SIZE_LIMIT)
    throw new InputError("too-large", path, `a text of ${value.length} characters`);
  return value;
}

/** One of a few words; any other is refused with `code`. */
export function checkOneOf<T extends string>(
  value: unknown,
  path: string,
  words: readonly T[],
  code: InputErrorCode = "unknown-word",
): T {
  const found = words.find((word) => word === value);
  if (found !== undefined) return found;
  const text = checkText(value, path);
  throw new InputError(code, path, `"${text}" is none of ${words.join(", ")}.${didYouMean(text, words)}`);
}

/** A list (arrays and typed arrays alike, so that embedders may pass either) of `min` to `max` entries. */
export function checkList(
  value: unknown,
  path: string,
  { min = 0, max = SIZE_LIMIT }: Range = {},
): ArrayLike<unknown> {
  const isList = Array.isArray(value) || (ArrayBuffer.isView(value) && !(value instanceof DataView));
  if (!isList) return refuseType(value, "a list", path);
  const list = value as unknown as ArrayLike<unknown>;
  if (list.length > max) throw new InputError("too-large", path, `${list.length} entries; at most ${max}`);
  if (list.length < min) {
    throw new InputError(
      "wrong-length",
      path,
      `at least ${min} ${min === 1 ? "entry is" : "entries are"} needed`,
    );
  }
  return list;
}

/** A list of finite numbers of a known length. */
export function checkNumbers(
  value: unknown,
  path: string,
  length: number,
  range: Range = {},
): ArrayLike<number> {
  const list = checkList(value, path);
  if (list.length !== length) {
    throw new InputError("wrong-length", path, `${list.length} numbers where ${length} are needed`);
  }
  checkEach(list, path, range);
  return list as ArrayLike<number>;
}

/** Checks that every entry is a finite number inside a range; the path is built only for an entry that fails. */
export function checkEach(list: ArrayLike<unknown>, path: string, range: Range = {}): void {
  const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY } = range;
  const isPlainRange = !(range.aboveMin || range.belowMax || range.whole);
  for (let i = 0; i < list.length; i++) {
    const value = list[i];
    if (isPlainRange && Number.isFinite(value) && (value as number) >= min && (value as number) <= max) {
      continue;
    }
    checkNumber(value, `${path}[${i}]`, range);
  }
}

/**
 * A plain record; its keys are read with `Object.hasOwn`, so nothing comes from a prototype. A map, a set, a date
 * or an instance of a class is refused: it would read as a record without keys, a pot without paint.
 */
export function checkRecord(value: unknown, path: string): Readonly<Record<string, unknown>> {
  if (typeof value !== "object" || value === null || !isPlain(value)) {
    return refuseType(value, "a record", path);
  }
  const count = Object.keys(value).length;
  if (count > SIZE_LIMIT) throw new InputError("too-large", path, `a record of ${count} keys`);
  return Object.assign(Object.create(null), value) as Readonly<Record<string, unknown>>;
}

/** Made by `{}`, `JSON.parse` or without a prototype, in this window or worker or another. */
function isPlain(value: object): boolean {
  if (Array.isArray(value)) return false;
  const prototype = Object.getPrototypeOf(value);
  return prototype === null || Object.getPrototypeOf(prototype) === null;
}

/** Refuses unknown keys: a misspelt limit must not be ignored. */
export function refuseUnknownKey(path: string, key: string, known: readonly string[]): never {
  const may = `it may have ${known.join(", ")}, and notes of your own`;
  const reason = `not a key of this record; ${may}.${didYouMean(key, known)}`;
  throw new InputError("unknown-key", pathTo(path, key), reason);
}

/** The place of a key inside a record: `limits.stockGrams`, or `pot["my toner"]` where a dot would mislead. */
export function pathTo(parent: string, key: string): string {
  if (!/^[\w-]+$/.test(key)) return `${parent}[${JSON.stringify(key)}]`;
  return parent === "" ? key : `${parent}.${key}`;
}
