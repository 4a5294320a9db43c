import process from "node:process";
import { isInputError } from "../core/InputError.js";
import { createDisk } from "./createDisk.js";
import { run } from "./run.js";
import { systemRefusal } from "./systemRefusal.js";
import { EXIT } from "./terminal.js";
import { writeAll } from "./writeWhole.js";

const { argv, env, stdout, stderr } = process;

let isRead = true;

/** What cannot be printed is told on the standard error, with an exit code of its own; a stop by the reader is no fault. */
function unprinted(error: unknown): void {
  isRead = false;
  if ((error as NodeJS.ErrnoException).code === "EPIPE") return;
  const refusal = systemRefusal("unwritable-file", "standard output", error);
  if (!isInputError(refusal)) throw error;
  process.exitCode = EXIT.unsaved;
  stderr.write(`masstone: ${refusal.message}\n`);
}

stdout.on("error", unprinted);
// If the standard error cannot be written, nobody can be told.
stderr.on("error", () => {});

/**
 * Waits until the text was taken: Node takes a part of a text written to a file for the whole, and holds in memory what a
 * pipe does not take yet.
 */
function print(text: string): void {
  try {
    if (stdout.isTTY) stdout.write(text);
    else writeAll(stdout.fd, text);
  } catch (error) {
    unprinted(error);
  }
}

const isByNpx = env.npm_command === "exec" && /\bmasstone\b/.test(env.npm_lifecycle_script ?? "");

const code = await run(argv.slice(2), {
  ...createDisk(),
  // What is printed to be pasted must work where it is pasted.
  program: isByNpx ? "npx masstone" : "masstone",
  now: () => new Date().toISOString(),
  write: print,
  isRead: () => isRead,
  writeError: (text) => stderr.write(text),
  isWatched: stderr.isTTY === true,
  isStyled: stdout.isTTY === true && (env.NO_COLOR ?? "") === "" && env.TERM !== "dumb",
});
process.exitCode ??= code;
