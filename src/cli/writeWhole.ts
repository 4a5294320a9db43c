import {
  closeSync,
  fchmodSync,
  fsyncSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from "node:fs";
import { dirname, join } from "node:path";
import process from "node:process";
import { patiently } from "./patiently.js";

/**
 * Writes a file so that it is the old one or the new one, never half: beside its place, then renamed. A link stays, and what
 * it leads to is replaced. A device or a pipe is written to directly, since it cannot be replaced.
 */
export function writeWhole(path: string, text: string): void {
  const there = statSync(path, { throwIfNoEntry: false });
  if (there && !there.isFile()) {
    writeText(path, "w", text);
    return;
  }
  const target = there ? realpathSync(path) : path;
  const fresh = join(dirname(target), `.masstone-${process.pid}.tmp`);
  try {
    rmSync(fresh, { force: true });
    writeText(fresh, "wx", text, there?.mode);
    renameSync(fresh, target);
  } finally {
    rmSync(fresh, { force: true });
  }
}

/** Writes a text to the last byte and down to the disk, where the file is one of a disk. */
export function writeText(path: string, flags: "a" | "w" | "wx", text: string, mode?: number): void {
  const file = openSync(path, flags);
  try {
    if (mode !== undefined) fchmodSync(file, mode);
    writeAll(file, text);
    fsyncIfFile(file);
  } finally {
    closeSync(file);
  }
}

/** Writes all of a text to an open file: the system may take a part of it and call that done. */
export function writeAll(file: number, text: string): void {
  const bytes = Buffer.from(text, "utf8");
  for (let done = 0; done < bytes.length; ) {
    const from = done;
    done += patiently(() => writeSync(file, bytes, from));
  }
}

function fsyncIfFile(file: number): void {
  try {
    fsyncSync(file);
  } catch (error) {
    // A device or a pipe has nothing to flush.
    if (!["EINVAL", "ENOTSUP"].includes((error as NodeJS.ErrnoException).code ?? "")) throw error;
  }
}
