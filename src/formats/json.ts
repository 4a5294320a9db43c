import { InputError } from "../core/InputError.js";
import { placeOf } from "./cell.js";
import { fileText } from "./fileText.js";
import { jsonFault } from "./jsonFault.js";

/** Ours nest about ten deep; deeper ones would fill the stack of whoever walks through them. */
const DEEPEST = 100;

/** Parses JSON text. Throws `unreadable-json` with line and column, and `too-large`; neither repeats the text. */
export function parseJson(text: string): unknown {
  const visible = fileText(text);
  let value: unknown;
  try {
    value = JSON.parse(visible);
  } catch {
    const before = visible.slice(0, Math.max(0, jsonFault(visible))).split(/\r\n|\n|\r/);
    const place = { text: "", line: before.length, column: (before.at(-1)?.length ?? 0) + 1 };
    throw new InputError("unreadable-json", placeOf(place), "not readable as JSON from here on");
  }
  if (isDeeper(value, DEEPEST)) {
    throw new InputError("too-large", "", `over ${DEEPEST} lists and records inside one another`);
  }
  return value;
}

function isDeeper(value: unknown, than: number): boolean {
  if (typeof value !== "object" || value === null) return false;
  return than === 0 || Object.values(value).some((inner) => isDeeper(inner, than - 1));
}
