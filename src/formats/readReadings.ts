import { InputError } from "../core/InputError.js";
import { oneOf } from "../core/shape/oneOf.js";
import type { Declared } from "./declared.js";
import type { ReadingsFile } from "./namedReading.js";
import { readReadingsCgats } from "./readingsCgats.js";
import { readReadingsCsv } from "./readingsCsv.js";
import { readReadingsCxf3 } from "./readingsCxf3.js";
import { readReadingsJson } from "./readingsJson.js";

/** The kinds of files that readings come in. */
export const READING_KINDS = ["csv", "cgats", "cxf3", "json"] as const;

/** What a file of readings can be. */
export type ReadingKind = (typeof READING_KINDS)[number];

/** A kind of file. */
export const READING_KIND = oneOf(READING_KINDS);

const KIND_OF_EXTENSION: Readonly<Record<string, ReadingKind>> = Object.freeze({
  csv: "csv",
  tsv: "csv",
  cgats: "cgats",
  txt: "cgats",
  ti3: "cgats",
  sp: "cgats",
  cxf: "cxf3",
  xml: "cxf3",
  json: "json",
});

const READERS: Readonly<Record<ReadingKind, (text: string, declared: Declared) => ReadingsFile>> =
  Object.freeze({
    csv: readReadingsCsv,
    cgats: readReadingsCgats,
    cxf3: readReadingsCxf3,
    json: readReadingsJson,
  });

/**
 * Readings from the text of a file, by the kind that is said or else by its name's extension (never by its content).
 * Throws `wrong-format` at `path` where neither tells, and as the reader of that kind does.
 */
export function readReadings(
  text: string,
  { name, kind, declared }: { readonly name: string; readonly kind?: unknown; readonly declared: Declared },
  path: string,
): ReadingsFile {
  const extension = name.slice(name.lastIndexOf(".") + 1).toLowerCase();
  const known = Object.hasOwn(KIND_OF_EXTENSION, extension) ? KIND_OF_EXTENSION[extension] : undefined;
  const chosen = kind === undefined ? known : READING_KIND.check(kind, path);
  if (chosen === undefined) {
    throw new InputError(
      "wrong-format",
      path,
      `"${name}" does not tell its kind; say one of ${READING_KINDS.join(", ")}`,
    );
  }
  return READERS[chosen](text, declared);
}
