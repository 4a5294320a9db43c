import { dirname, resolve } from "node:path";
import { InputError } from "../core/InputError.js";
import type { FindToners } from "../formats/jobFile.js";
import type { FindText } from "../formats/readFiles.js";
import { readToners } from "../formats/tonersFile.js";
import type { Terminal } from "./terminal.js";
import { whatHelps } from "./whatHelps.js";

/** An InputError that already says in which file its place is, and what helps. */
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

/** Reads a file and hands its text on; whatever is wrong with it is told with the name of the file. */
export function fromFile<T>({ readFile }: Terminal, file: string, read: (text: string) => T): T {
  let text = "";
  try {
    text = textOf(readFile, file);
    return read(text);
  } catch (error) {
    if (error instanceof InputError && !(error instanceof FileError)) throw new FileError(file, error, text);
    throw error;
  }
}

/** Files are named from where the file that names them stands; from the working folder where that is standard input. */
const beside = (file: string, name: string): string => resolve(file === "-" ? "." : dirname(file), name);

export function tonersBeside(terminal: Terminal, jobFile: string): FindToners {
  return (name) => fromFile(terminal, beside(jobFile, name), readToners);
}

export function textBeside(terminal: Terminal, file: string): FindText {
  return (name) => fromFile(terminal, beside(file, name), (text) => text);
}

/** Writes a file that was asked for. Throws `unwritable-file` where that cannot be. */
export function toFile({ writeFile }: Terminal, file: string, text: string): void {
  try {
    writeFile(file, text);
  } catch (error) {
    throw new InputError("unwritable-file", file, whyNot(error));
  }
}

function textOf(readFile: Terminal["readFile"], file: string): string {
  try {
    return readFile(file);
  } catch (error) {
    throw new InputError("unreadable-file", "", whyNot(error));
  }
}

/** The system's usual reasons in words, any other as it tells it. */
const REASONS: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file or folder",
  EISDIR: "this is a folder, not a file",
  ENOTDIR: "a part of this path is a file, not a folder",
  EACCES: "the file may not be opened: ask for the right to, or copy it",
  EROFS: "nothing can be written there",
  ENOSPC: "there is no room left on the disk",
};

function whyNot(error: unknown): string {
  const { code = "", message = String(error) } = error as { code?: string; message?: string };
  return Object.hasOwn(REASONS, code) ? REASONS[code] : message;
}
