import { linkSync, renameSync, rmSync, statSync, truncateSync, writeFileSync } from "node:fs";
import process from "node:process";
import { InputError } from "../core/InputError.js";
import { readBounded } from "./readBounded.js";
import { writeText } from "./writeWhole.js";

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
 * Appends lines to a record under a lock, if it still reads as it did: first its end to a new file, so that there is
 * room for it, then the lines in one write to the end of the record, flushed to the disk, then the end renamed to its
 * place. What fails leaves the record as it was. Killed in between, the record has a torn last line or an end that is
 * one step behind, and both are understood. Throws `record-in-use`.
 */
export function appendToRecord(path: string, { read, lines, end }: RecordAddition): void {
  const release = lock(path);
  const fresh = `${endOf(path)}.new`;
  try {
    const now = readRecordTexts(path);
    if (now.text !== read.text || now.end !== read.end) {
      throw new InputError(
        "record-in-use",
        path,
        "somebody has added to it meanwhile: look again, then repeat",
      );
    }
    writeText(fresh, "w", end);
    const before = statSync(path, { throwIfNoEntry: false })?.size;
    try {
      writeText(path, "a", lines);
      renameSync(fresh, endOf(path));
    } catch (error) {
      takeBack(path, before);
      throw error;
    }
  } finally {
    rmSync(fresh, { force: true });
    release();
  }
}

/** Cuts a record back to what it was before a write failed; where even that fails, a torn line is left. */
function takeBack(path: string, before: number | undefined): void {
  try {
    if (before === undefined) rmSync(path, { force: true });
    else truncateSync(path, before);
  } catch {
    // The reason that matters is on its way already.
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
  try {
    writeFileSync(signed, `${process.pid}\n`);
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
  const there = statSync(path, { throwIfNoEntry: false });
  if (there === undefined) return undefined;
  if (there.isFile() || there.isDirectory()) return readBounded(path).text;
  throw new InputError("unreadable-file", path, "this is a device, a pipe or a socket, not a record");
}
