import { checkText } from "./check.js";
import { InputError } from "./InputError.js";
import type { Shape } from "./shape/shape.js";

const MS_PER_DAY = 86_400_000;

/** A day of the calendar written as 2026-03-31 (ISO 8601); a day that no calendar has is `out-of-range`. */
export const DAY: Shape<string> = Object.freeze({
  check: (value: unknown, path: string) => {
    const text = checkText(value, path);
    const time = /^\d{4}-\d{2}-\d{2}$/.test(text) ? Date.parse(`${text}T00:00:00Z`) : Number.NaN;
    if (!Number.isNaN(time) && new Date(time).toISOString().startsWith(text)) return text;
    throw new InputError("out-of-range", path, `"${text}" is no day; write it as 2026-03-31`);
  },
  form: { kind: "other", schema: { type: "string", pattern: "^\\d{4}-\\d{2}-\\d{2}$" } },
} as const);

/** Days from one day to another, negative backwards. */
export function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / MS_PER_DAY);
}
