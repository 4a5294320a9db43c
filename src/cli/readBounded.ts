import { closeSync, fstatSync, openSync, readSync } from "node:fs";
import { InputError } from "../core/InputError.js";

/** Most that is read of a file that a person names, in bytes; no paint needs more. */
const MOST_BYTES = 50_000_000;

const CHUNK_BYTES = 65_536;
const STANDARD_INPUT = 0;
/** How long to wait, in ms, for a standard input that has nothing yet and does not block. */
const NAP = 10;

/** A text in UTF-8 and how many bytes it was. */
export interface BoundedText {
  readonly text: string;
  readonly bytes: number;
}

/**
 * The text of a file, of a pipe or (for "-") of the standard input. Throws `too-large` with `reason` for more bytes than
 * `most`, of which a device without end has any number, and what the system says.
 */
export function readBounded(
  path: string,
  most = MOST_BYTES,
  reason = `over ${MOST_BYTES / 1e6} MB`,
): BoundedText {
  const file = path === "-" ? STANDARD_INPUT : openSync(path, "r");
  try {
    // A file that says how large it is need not be read to be refused.
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

function readChunk(file: number, chunk: Buffer): number {
  for (;;) {
    try {
      return readSync(file, chunk);
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      // Windows calls the end of a pipe an error.
      if (code === "EOF") return 0;
      if (code !== "EAGAIN") throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, NAP);
    }
  }
}
