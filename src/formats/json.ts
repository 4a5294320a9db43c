import { InputError } from "../core/InputError.js";
import { fileText } from "./fileText.js";

/** Parses JSON text. Throws `unreadable-json` with what the engine says of the place, and `too-large`. */
export function parseJson(text: string): unknown {
  const visible = fileText(text);
  try {
    return JSON.parse(visible);
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    throw new InputError("unreadable-json", "", `not readable as JSON (${message})`);
  }
}
