import { InputError } from "./InputError.js";

/** A number as somebody typed it, and the unit behind it; empty where there is none. */
export interface TypedNumber {
  readonly value: number;
  readonly unit: string;
}

/** Digits with a point or a comma before the decimals; never hexadecimal, never spaces between thousands. */
const NUMBER = /^([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d+)?)\s*([\p{L}%°]*)$/u;

/** A comma that may stand before decimals or between thousands. */
const THOUSANDS = /^[+-]?[1-9]\d{0,2},\d{3}$/;

/**
 * Reads a number that a person typed, such as `0.18oz`, `12,5 g` or `-3`. With `isTable` every comma stands before
 * decimals, as a whole column of them shows; else `1,234` is refused, which may be a thousand. Throws `missing`,
 * `wrong-type` and `not-finite`, showing what was typed.
 */
export function typedNumber(text: string, path: string, { isTable = false } = {}): TypedNumber {
  const plain = text.trim();
  const shown = `"${text.slice(0, 40)}"`;
  if (plain === "") throw new InputError("missing", path, "a number is needed here");
  const [, digits, unit = ""] = NUMBER.exec(plain) ?? [];
  if (digits === undefined) {
    const isNone = /^[+-]?(nan|inf(inity)?)$/i.test(plain);
    throw new InputError(isNone ? "not-finite" : "wrong-type", path, `${shown} is not a finite number`);
  }
  if (!isTable && THOUSANDS.test(digits)) {
    const [left, right] = digits.split(",");
    const reason = `${shown} may be ${left}.${right} or ${left}${right}: write the one that is meant`;
    throw new InputError("wrong-type", path, reason);
  }
  const value = Number(digits.replace(",", "."));
  if (!Number.isFinite(value)) throw new InputError("not-finite", path, `${shown} is not a finite number`);
  return { value, unit };
}
