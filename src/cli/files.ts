import { dirname, resolve } from "node:path";
import { InputError, isInputError } from "../core/InputError.js";
import type { FindToners } from "../formats/jobFile.js";
import type { FindText } from "../formats/readFiles.js";
import { readToners } from "../formats/tonersFile.js";
import { askSystem } from "./systemRefusal.js";
import type { NamedInFile, Terminal } from "./terminal.js";
import { whatHelps } from "./whatHelps.js";

/** An InputError that names its file and what helps. */
export class FileError extends InputError {
  readonly help: string;

  constructor(
    file: string,
    { code, path, reason }: Pick<InputError, "code" | "path" | "reason">,
    text: string,
  ) {
    super(code, path === "" ? file : `${file}: ${path}`, reason);
    this.help = whatHelps({ code, reason }, text);
  }
}

/**
 * Reads a file and hands its text on; whatever is wrong with it is told with the name of the file. `named` is given
 * where another file, not a person, names it.
 */
export function fromFile<T>(
  { readFile }: Terminal,
  file: string,
  read: (text: string) => T,
  named?: NamedInFile,
): T {
  let text = "";
  try {
    text = askSystem("unreadable-file", "", () => readFile(file, named));
    return read(text);
  } catch (error) {
    if (isInputError(error) && !(error instanceof FileError)) throw new FileError(file, error, text);
    throw error;
  }
}

/** Files are named from where the file that names them stands; from the working folder where that is standard input. */
const folderOf = (file: string): string => (file === "-" ? "." : dirname(file));
const beside = (file: string, name: string): string => resolve(folderOf(file), name);

export function tonersBeside(terminal: Terminal, jobFile: string): FindToners {
  return (name) => fromFile(terminal, beside(jobFile, name), readToners, { within: folderOf(jobFile) });
}

export function textBeside(terminal: Terminal, file: string): FindText {
  return (name) => fromFile(terminal, beside(file, name), (text) => text, { within: folderOf(file) });
}

/** Writes a file that was asked for. Throws `unwritable-file` where that cannot be. */
export function toFile({ writeFile }: Terminal, file: string, text: string): void {
  askSystem("unwritable-file", file, () => writeFile(file, text));
}
