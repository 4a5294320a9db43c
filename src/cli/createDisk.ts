import { accessSync, constants, fstatSync, realpathSync, type Stats, statSync } from "node:fs";
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from "node:path";
import { InputError } from "../core/InputError.js";
import { readBounded, STANDARD_INPUT } from "./readBounded.js";
import { readLines } from "./readLines.js";
import { appendToRecord, readRecordTexts } from "./recordTexts.js";
import type { NamedInFile, Terminal } from "./terminal.js";
import { writeWhole } from "./writeWhole.js";

type Disk = Pick<
  Terminal,
  "readFile" | "readLines" | "willWrite" | "writeFile" | "readRecord" | "appendToRecord"
>;

/** Most that is read of all files together that other files name, in bytes: about two seconds of a table's cells. */
const MOST_NAMED_BYTES = 20_000_000;
const TOO_LARGE = `over ${MOST_NAMED_BYTES / 1e6} MB, together with what else was read that a file names`;

/**
 * The disk as one command sees it. A file that another file names must be a regular one at or below the folder that it
 * may stand in, and such files together may have 20 MB; one that a person names may be a pipe too, of 50 MB. What was
 * announced to be written is not read.
 */
export function createDisk(): Disk {
  const outputs = new Map<string, string>();

  const refuseOutput = (path: string, place = ""): void => {
    const output = keysOf(path)
      .map((key) => outputs.get(key))
      .find((one) => one !== undefined);
    if (output === undefined) return;
    const reason = `this file is read, and the same command would write "${output}" over it: write to another`;
    throw new InputError("unwritable-file", place, reason);
  };

  const createReader = (): Disk["readFile"] => {
    let leftForNamed = MOST_NAMED_BYTES;
    return (path, named) => {
      const real = named === undefined ? path : regularFile(path, named);
      refuseOutput(real);
      if (named === undefined) return readBounded(path).text;
      const { text, bytes } = readBounded(real, leftForNamed, TOO_LARGE);
      leftForNamed -= bytes;
      return text;
    };
  };

  return {
    readFile: createReader(),
    *readLines(path) {
      for (const text of readLines(path)) {
        const readOther = createReader();
        yield { readFile: (other, named) => (named === undefined ? text() : readOther(other, named)) };
      }
    },
    willWrite(path) {
      const there = statSync(path, { throwIfNoEntry: false });
      if (there && !there.isFile() && !there.isDirectory()) return;
      if (there?.isDirectory()) throw Object.assign(new Error("a folder"), { code: "EISDIR" });
      if (there) accessSync(path, constants.W_OK);
      accessSync(dirname(path), constants.W_OK);
      for (const key of keysOf(path)) {
        if (outputs.has(key)) {
          throw new InputError("unwritable-file", path, "two things cannot be written to one file");
        }
        outputs.set(key, path);
      }
    },
    writeFile: writeWhole,
    readRecord(path) {
      for (const file of [path, `${path}.end`, `${path}.lock`]) refuseOutput(file, path);
      return readRecordTexts(path);
    },
    appendToRecord,
  };
}

/**
 * Keys that identify a file by any of its names: device and inode, and real path. Empty for a file that does not
 * exist.
 */
function keysOf(path: string): readonly string[] {
  const stats = path === "-" ? fstatSync(STANDARD_INPUT) : statSync(path, { throwIfNoEntry: false });
  if (stats && !stats.isFile()) return [];
  const folder = path !== "-" && statSync(dirname(path), { throwIfNoEntry: false });
  return [
    ...(stats ? [`${stats.dev}:${stats.ino}`] : []),
    ...(folder ? [join(realpathSync(dirname(path)), basename(path))] : []),
  ];
}

/** The real path of a file that another file names. Throws `outside-folder` and `unreadable-file`. */
function regularFile(path: string, { within }: NamedInFile): string {
  const reason = "a file names it and it does not lie at or below the folder of that file";
  // By name first, so that the refusal does not tell whether a file outside exists.
  if (within !== undefined && !isBelow(resolve(within), resolve(path))) {
    throw new InputError("outside-folder", "", reason);
  }
  const real = realpathSync(path);
  if (within !== undefined && !isBelow(realpathSync(within), real)) {
    throw new InputError("outside-folder", "", reason);
  }
  const stats: Stats = statSync(real);
  if (stats.isFile() || stats.isDirectory()) return real;
  throw new InputError("unreadable-file", "", "this is a device, a pipe or a socket; a file is needed here");
}

function isBelow(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way !== ".." && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}
