import { InputError } from "../core/InputError.js";

/** Longer texts than this are not paint: about 50 MB. */
const LONGEST_TEXT = 50_000_000;

/** Parses JSON text. Throws `unreadable-json` with what the engine says of the place, and `too-large`. */
export function parseJson(text: string): unknown {
  if (text.length > LONGEST_TEXT) {
    throw new InputError("too-large", "", `${text.length} characters; at most ${LONGEST_TEXT}`);
  }
  try {
    // Some writers put a byte order mark first, which JSON does not allow and nobody sees.
    return JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    throw new InputError("unreadable-json", "", `not readable as JSON (${message})`);
  }
}
