import { InputError } from "../core/InputError.js";
import { fileText } from "./fileText.js";
import { refuseTwins } from "./refuseTwins.js";

/**
 * Parses JSON text. Throws `unreadable-json` with what the engine says of the place, `too-large`, and `duplicate` for
 * a key that stands twice in one record, of which the engine would let the second win.
 */
export function parseJson(text: string): unknown {
  const visible = fileText(text);
  let value: unknown;
  try {
    value = JSON.parse(visible);
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    throw new InputError("unreadable-json", "", `not readable as JSON (${message})`);
  }
  refuseTwins(visible);
  return value;
}
