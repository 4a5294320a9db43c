import { InputError } from "../core/InputError.js";

/** Longer texts than this are not paint: about 50 MB. */
const LONGEST_TEXT = 50_000_000;

/**
 * The text of a file as its reader should see it: without the byte order mark that some writers put first and that
 * nobody sees. Throws `wrong-type` and `too-large`.
 */
export function fileText(text: string): string {
  if (typeof text !== "string") throw new InputError("wrong-type", "", "the text of the file is needed here");
  if (text.length > LONGEST_TEXT) {
    throw new InputError("too-large", "", `${text.length} characters; at most ${LONGEST_TEXT}`);
  }
  return text.startsWith("\uFEFF") ? text.slice(1) : text;
}
