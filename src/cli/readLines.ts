import { closeSync, openSync } from "node:fs";
import { InputError } from "../core/InputError.js";
import { CHUNK_BYTES, MOST_BYTES, readChunk, STANDARD_INPUT, TOO_LARGE } from "./readBounded.js";
import { askSystem } from "./systemRefusal.js";

const LINE_FEED = 10;

/**
 * Each line of a file, of a pipe or (for "-") of the standard input, as a function that returns its text; no more is read
 * than the lines that were asked for need. For a line of more bytes than `most` the function throws `too-large`. What the
 * system refuses is `unreadable-file`.
 */
export function* readLines(path: string, most = MOST_BYTES): Generator<() => string, void> {
  const ask = <T>(act: () => T) => askSystem("unreadable-file", path, act);
  const file = path === "-" ? STANDARD_INPUT : ask(() => openSync(path, "r"));
  let line = new Line(most);
  try {
    for (;;) {
      const chunk = Buffer.allocUnsafe(CHUNK_BYTES);
      const count = ask(() => readChunk(file, chunk));
      if (count === 0) break;
      const read = chunk.subarray(0, count);
      let start = 0;
      for (let end = read.indexOf(LINE_FEED); end >= 0; end = read.indexOf(LINE_FEED, start)) {
        line.add(read.subarray(start, end));
        const { text } = line;
        line = new Line(most);
        start = end + 1;
        yield text;
      }
      line.add(read.subarray(start));
    }
    if (line.bytes > 0) yield line.text;
  } finally {
    if (file !== STANDARD_INPUT) closeSync(file);
  }
}

/** A line while it is read; of one that is too long only its length is kept. */
class Line {
  bytes = 0;
  private parts: Buffer[] = [];

  constructor(private readonly most: number) {}

  add(part: Buffer): void {
    this.bytes += part.length;
    if (this.bytes > this.most) this.parts = [];
    else this.parts.push(part);
  }

  readonly text = (): string => {
    if (this.bytes > this.most) throw new InputError("too-large", "", TOO_LARGE);
    return Buffer.concat(this.parts).toString("utf8");
  };
}
