import { printable } from "../core/printable.js";
import type { Terminal } from "./terminal.js";

/** The terminal of the verbs: whatever text is written to it is made safe here, and nowhere else. */
export interface Screen extends Terminal {
  /** An answer, its first line in bold where that shows. */
  readonly writeAnswer: (text: string) => void;
  /** A line on the standard error in place of the one before; the empty line wipes it. */
  readonly overwriteError: (line: string) => void;
}

/** Escape sequences are put around texts that are safe already: none comes from a name or a file. */
export function screenOf(terminal: Terminal): Screen {
  return {
    ...terminal,
    write: (text) => terminal.write(printable(text)),
    writeError: (text) => terminal.writeError(printable(text)),
    writeAnswer: (text) => terminal.write(headlineInBold(printable(text), terminal)),
    overwriteError: (line) => terminal.writeError(`\r\u001b[K${printable(line)}`),
  };
}

function headlineInBold(text: string, { isStyled }: Terminal): string {
  if (!isStyled) return text;
  const end = text.indexOf("\n");
  return `\u001b[1m${text.slice(0, end)}\u001b[22m${text.slice(end)}`;
}
