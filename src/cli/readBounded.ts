import { closeSync, fstatSync, openSync, readSync } from "node:fs";
import { InputError } from "../core/InputError.js";
import { patiently } from "./patiently.js";

/** Most that is read of a file that a person names, in bytes; no paint needs more. */
export const MOST_BYTES = 50_000_000;
export const TOO_LARGE = `over ${MOST_BYTES / 1e6} MB`;

export const CHUNK_BYTES = 65_536;
export const STANDARD_INPUT = 0;

/** A text in UTF-8 and how many bytes it was. */
export interface BoundedText {
  readonly text: string;
  readonly bytes: number;
}

/**
 * The text of a file, of a pipe or (for "-") of the standard input. Throws `too-large` with `reason` for more bytes than
 * `most`, of which a device without end has any number, and what the system says.
 */
export function readBounded(path: string, most = MOST_BYTES, reason = TOO_LARGE): BoundedText {
  const file = path === "-" ? STANDARD_INPUT : openSync(path, "r");
  try {
    // A file that is too large by its size is refused without reading it.
    if (fstatSync(file).size > most) throw new InputError("too-large", "", reason);
    const chunks: Buffer[] = [];
    let bytes = 0;
    for (;;) {
      const chunk = Buffer.allocUnsafe(CHUNK_BYTES);
      const count = readChunk(file, chunk);
      if (count === 0) return { text: Buffer.concat(chunks).toString("utf8"), bytes };
      bytes += count;
      if (bytes > most) throw new InputError("too-large", "", reason);
      chunks.push(chunk.subarray(0, count));
    }
  } finally {
    if (file !== STANDARD_INPUT) closeSync(file);
  }
}

/** How many bytes were read; 0 at the end. */
export function readChunk(file: number, chunk: Buffer): number {
  try {
    return patiently(() => readSync(file, chunk));
  } catch (error) {
    // Windows calls the end of a pipe an error.
    if ((error as NodeJS.ErrnoException).code === "EOF") return 0;
    throw error;
  }
}
