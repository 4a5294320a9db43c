import { InputError } from "../core/InputError.js";
import { placeOf } from "./cell.js";
import { fileText } from "./fileText.js";
import { jsonFault } from "./jsonFault.js";
import { refuseTwins } from "./refuseTwins.js";

/** Deepest nesting that is accepted. Our files nest about ten deep; very deep ones would overflow the stack. */
const DEEPEST = 100;

/** Parses JSON text. Throws `unreadable-json` with line and column, and `too-large`; neither repeats the text. */
export function parseJson(text: string): unknown {
  const visible = fileText(text);
  if (isDeeper(visible, DEEPEST)) {
    throw new InputError("too-large", "", `over ${DEEPEST} lists and records inside one another`);
  }
  let value: unknown;
  try {
    value = JSON.parse(visible);
  } catch {
    const before = visible.slice(0, Math.max(0, jsonFault(visible))).split(/\r\n|\n|\r/);
    const place = { text: "", line: before.length, column: (before.at(-1)?.length ?? 0) + 1 };
    throw new InputError("unreadable-json", placeOf(place), "not readable as JSON from here on");
  }
  refuseTwins(visible);
  return value;
}

const [QUOTE, BACKSLASH] = [0x22, 0x5c];
const OPENING: readonly number[] = [0x5b, 0x7b];
const CLOSING: readonly number[] = [0x5d, 0x7d];

/** Whether brackets outside quotes nest deeper; looked at before the text is parsed, which takes memory for each. */
function isDeeper(text: string, than: number): boolean {
  let depth = 0;
  let isQuoted = false;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === BACKSLASH) i++;
    else if (code === QUOTE) isQuoted = !isQuoted;
    else if (isQuoted) continue;
    else if (OPENING.includes(code)) depth++;
    else if (CLOSING.includes(code)) depth--;
    if (depth > than) return true;
  }
  return false;
}
