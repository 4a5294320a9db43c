import { fstatSync } from "node:fs";
import process from "node:process";
import { isInputError } from "../core/InputError.js";
import { createDisk } from "./createDisk.js";
import { run } from "./run.js";
import { systemRefusal } from "./systemRefusal.js";
import { EXIT } from "./terminal.js";
import { writeAll } from "./writeWhole.js";

const { argv, env, stdout, stderr } = process;

/** What cannot be printed is told on the standard error, with an exit code of its own; a stop by the reader is no fault. */
function unprinted(error: unknown): void {
  if ((error as NodeJS.ErrnoException).code === "EPIPE") return;
  const refusal = systemRefusal("unwritable-file", "standard output", error);
  if (!isInputError(refusal)) throw error;
  process.exitCode = EXIT.unsaved;
  stderr.write(`masstone: ${refusal.message}\n`);
}

stdout.on("error", unprinted);
// Where the standard error takes nothing there is nobody to tell.
stderr.on("error", () => {});

/** Node takes a part of a text written to a file for the whole; a full disk would cut it off in silence. */
function print(text: string): void {
  try {
    if (fstatSync(stdout.fd).isFile()) writeAll(stdout.fd, text);
    else stdout.write(text);
  } catch (error) {
    unprinted(error);
  }
}

const code = run(argv.slice(2), {
  ...createDisk(),
  now: () => new Date().toISOString(),
  write: print,
  writeError: (text) => stderr.write(text),
  isWatched: stderr.isTTY === true,
  isStyled: stdout.isTTY === true && (env.NO_COLOR ?? "") === "" && env.TERM !== "dumb",
});
process.exitCode ??= code;
