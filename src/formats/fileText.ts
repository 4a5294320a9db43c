import { InputError } from "../core/InputError.js";

/** Longest text that is read, about 50 MB. */
const LONGEST_TEXT = 50_000_000;

/** The replacement character, which stands where bytes were not UTF-8. */
const LOST = "\uFFFD";

/**
 * The text of a file as its reader should see it: without the byte order mark that some writers put first and that
 * nobody sees. Throws `wrong-type`, `too-large`, and `unreadable-file` for a text that was not UTF-8 when it was read.
 */
export function fileText(text: string): string {
  if (typeof text !== "string") throw new InputError("wrong-type", "", "the text of the file is needed here");
  if (text.length > LONGEST_TEXT) {
    throw new InputError("too-large", "", `${text.length} characters; at most ${LONGEST_TEXT}`);
  }
  refuseEncoding(text);
  return text.startsWith("\uFEFF") ? text.slice(1) : text;
}

/** Names the likely encoding of a text that is not UTF-8, from its first characters or the first one replaced. */
function refuseEncoding(text: string): void {
  const saved = "save it as UTF-8";
  if (text.startsWith("\u001F") || text.startsWith("PK\u0003\u0004")) {
    throw new InputError("unreadable-file", "", "this is a compressed file: unpack it first");
  }
  if (text.startsWith(LOST + LOST) || text.slice(0, 4).includes("\0")) {
    throw new InputError("unreadable-file", "", `this looks like UTF-16: ${saved}`);
  }
  const at = text.indexOf(LOST);
  if (at < 0) return;
  const lines = text.slice(0, at).split(/\r\n|\n|\r/);
  const place = `line ${lines.length}, column ${(lines.at(-1)?.length ?? 0) + 1}`;
  const reason = `a character here is no UTF-8, as in files of Windows-1252 or Latin-1: ${saved}`;
  throw new InputError("unreadable-file", place, reason);
}
