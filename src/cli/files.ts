import { dirname, resolve } from "node:path";
import { InputError } from "../core/InputError.js";
import type { FindToners } from "../formats/jobFile.js";
import { readToners } from "../formats/tonersFile.js";
import type { Terminal } from "./terminal.js";

/** An InputError that already says in which file its place is. */
class FileError extends InputError {
  constructor(file: string, { code, path, reason }: Pick<InputError, "code" | "path" | "reason">) {
    super(code, path === "" ? file : `${file}: ${path}`, reason);
  }
}

/** Reads a file and hands its text on; whatever is wrong with it is told with the name of the file. */
export function fromFile<T>({ readFile }: Terminal, file: string, read: (text: string) => T): T {
  try {
    return read(textOf(readFile, file));
  } catch (error) {
    if (error instanceof InputError && !(error instanceof FileError)) throw new FileError(file, error);
    throw error;
  }
}

/** Toner files are named from where the job file stands; from the working folder when it comes by standard input. */
export function tonersBeside(terminal: Terminal, jobFile: string): FindToners {
  const folder = jobFile === "-" ? "." : dirname(jobFile);
  return (name) => fromFile(terminal, resolve(folder, name), readToners);
}

function textOf(readFile: Terminal["readFile"], file: string): string {
  try {
    return readFile(file);
  } catch (error) {
    throw new InputError("unreadable-file", "", error instanceof Error ? error.message : String(error));
  }
}
