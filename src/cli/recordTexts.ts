import {
  closeSync,
  fsyncSync,
  linkSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
  writeSync,
} from "node:fs";
import process from "node:process";
import { InputError } from "../core/InputError.js";

/** A record on disk: its text, and the text that says where it ends. Absent files are absent texts. */
export interface RecordTexts {
  readonly text?: string;
  readonly end?: string;
}

/** What is to be added to a record that was read as `read`. */
export interface RecordAddition {
  readonly read: RecordTexts;
  readonly lines: string;
  readonly end: string;
}

const endOf = (path: string): string => `${path}.end`;
const lockOf = (path: string): string => `${path}.lock`;

/** Reads a record and its end; a file that is not there is left out. */
export function readRecordTexts(path: string): RecordTexts {
  const text = textIfThere(path);
  const end = textIfThere(endOf(path));
  return { ...(text !== undefined && { text }), ...(end !== undefined && { end }) };
}

/**
 * Appends lines to a record under a lock, if it still reads as it did: the lines in one write to the end of the file,
 * flushed to the disk, then its end by writing a new file and renaming it. Killed in between, the record has a torn
 * last line or an end that is one step behind, and both are understood. Throws `record-in-use`.
 */
export function appendToRecord(path: string, { read, lines, end }: RecordAddition): void {
  const release = lock(path);
  try {
    const now = readRecordTexts(path);
    if (now.text !== read.text || now.end !== read.end) {
      throw new InputError(
        "record-in-use",
        path,
        "somebody has added to it meanwhile: look again, then repeat",
      );
    }
    write(path, "a", lines);
    const fresh = `${endOf(path)}.new`;
    write(fresh, "w", end);
    renameSync(fresh, endOf(path));
  } finally {
    release();
  }
}

function write(path: string, flags: "a" | "w", text: string): void {
  const file = openSync(path, flags);
  try {
    const bytes = Buffer.from(text, "utf8");
    let done = 0;
    while (done < bytes.length) done += writeSync(file, bytes, done);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/**
 * Takes the lock, from a process that is no more if need be. It is made by linking a file that is signed already, so
 * that no lock is ever without the number of its process.
 */
function lock(path: string): () => void {
  const file = lockOf(path);
  const signed = `${file}.${process.pid}`;
  const holder = textIfThere(file);
  if (holder !== undefined && !isAlive(Number(holder))) rmSync(file, { force: true });
  writeFileSync(signed, `${process.pid}\n`);
  try {
    linkSync(signed, file);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "EEXIST") throw error;
    throw new InputError(
      "record-in-use",
      path,
      `another masstone is writing to it (${file}): wait for it, then repeat`,
    );
  } finally {
    rmSync(signed, { force: true });
  }
  return () => rmSync(file, { force: true });
}

function isAlive(id: number): boolean {
  if (!Number.isInteger(id) || id <= 0) return true;
  try {
    process.kill(id, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}

function textIfThere(path: string): string | undefined {
  try {
    return readFileSync(path, "utf8");
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return undefined;
    throw error;
  }
}
