import { checkRecord } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { number } from "../core/shape/number.js";
import { optional } from "../core/shape/optional.js";
import { record } from "../core/shape/record.js";
import { rule } from "../core/shape/rule.js";
import { text } from "../core/shape/text.js";
import type { DatedEntry, RecordEntry } from "../record/recordEntry.js";
import { RECORD_ENTRY_SHAPE } from "../record/recordEntryShape.js";
import { checkHeader, FORMAT_VERSIONS } from "./header.js";
import { parseJson } from "./json.js";
import { sha256 } from "./sha256.js";
import { toldIn } from "./toldIn.js";

/** Where a record ends. Kept apart, it shows that no line is missing. */
export interface RecordEnd {
  /** How many entries there are. */
  readonly entries: number;
  /** Of the last; 64 zeros of none. */
  readonly hash: string;
}

/** One line of a record. */
export interface RecordLine extends DatedEntry {
  /** Hash of the line before; 64 zeros in the first. */
  readonly previous: string;
  /** SHA-256 of the line before, where that broke off while it was written and counts for nothing. */
  readonly torn?: string;
  /** Last key of the line: SHA-256 of the line's object as written but without this key. */
  readonly hash: string;
}

const HASH = rule(
  text(),
  (hash, path) => {
    if (!/^[0-9a-f]{64}$/.test(hash)) throw new InputError("damaged-record", path, "this is no SHA-256");
  },
  { pattern: "^[0-9a-f]{64}$" },
);
const COUNT = number({ min: 0, whole: true });

/** The end of a record. */
export const RECORD_END = record<RecordEnd>(
  { entries: COUNT, hash: HASH },
  { format: "masstone/record-end" },
);

/** A line of a record. */
export const RECORD_LINE = record<RecordLine>(
  { number: COUNT, at: text(), previous: HASH, torn: optional(HASH), entry: RECORD_ENTRY_SHAPE, hash: HASH },
  { format: "masstone/record" },
);

/** A record as read. */
export interface JobRecord {
  readonly entries: readonly DatedEntry[];
  readonly end: RecordEnd;
  /** A last line that was not written whole: what there is of it, which counts for nothing. */
  readonly torn?: string;
}

const SEALED = /^(\{.*),"hash":"([0-9a-f]{64})"\}$/;

/** What stands before the first entry. */
export const NO_ENTRIES: RecordEnd = Object.freeze({
  entries: 0,
  hash: "0000000000000000000000000000000000000000000000000000000000000000",
});

/**
 * The line of a `masstone/record` file for an entry after `record`: one JSON object with the hash of the line before
 * and, last, its own (SHA-256 of the object without it). After a torn line it also has the hash of what is there of
 * that, so that nothing need be cut out of the file. `at` is the time of day as ISO 8601 writes it.
 */
export function recordLine(
  { end, torn }: Pick<JobRecord, "end" | "torn">,
  entry: RecordEntry,
  at: string,
): { readonly line: string; readonly end: RecordEnd } {
  const content = {
    format: "masstone/record",
    version: FORMAT_VERSIONS["masstone/record"],
    number: end.entries,
    at,
    previous: end.hash,
    ...(torn !== undefined && { torn: sha256(torn) }),
    entry,
  };
  const body = JSON.stringify(content, (_, value) =>
    ArrayBuffer.isView(value) ? Array.from(value as unknown as ArrayLike<number>) : value,
  );
  const hash = sha256(body);
  return { line: `${body.slice(0, -1)},"hash":"${hash}"}\n`, end: { entries: end.entries + 1, hash } };
}

/**
 * A job's record from the text of a `masstone/record` file, one entry a line. A changed, missing, doubled or moved
 * line is refused with `damaged-record`; so is a record that ends before `written`, the end last made known. Only a
 * last line that breaks off is let pass, as `torn`, and only if no `written` says that it was whole.
 */
export function readRecord(text: string, written: RecordEnd = NO_ENTRIES): JobRecord {
  const lines = text.split("\n");
  const last = lines.pop() ?? "";
  const entries: DatedEntry[] = [];
  const ends: RecordEnd[] = [NO_ENTRIES];
  let torn: string | undefined;
  const take = (line: string): void => {
    const read = readLine(line, ends[entries.length], torn);
    torn = undefined;
    entries.push(read.entry);
    ends.push(read.end);
  };
  lines.forEach((line, i) => {
    // A line that broke off, said so by the line after it.
    const isFollowed = i + 1 < lines.length || isSealed(last);
    if (torn === undefined && isFollowed && !isSealed(line)) torn = line;
    else take(line);
  });
  // A last line without its newline is whole all the same if its hash says so.
  if (isSealed(last)) take(last);
  else if (last !== "") torn = last;
  checkEnd(ends, written);
  return { entries, end: ends[entries.length], ...(torn !== undefined && { torn }) };
}

function isSealed(line: string): boolean {
  const [, body, hash] = SEALED.exec(line) ?? [];
  return body !== undefined && sha256(`${body}}`) === hash;
}

function readLine(
  line: string,
  end: RecordEnd,
  torn: string | undefined,
): { readonly entry: DatedEntry; readonly end: RecordEnd } {
  const place = `entry ${end.entries}`;
  if (!isSealed(line)) throw damaged(place, "this line is not as it was written");
  const {
    number,
    at,
    previous,
    torn: broken,
    entry,
    hash,
  } = toldIn(place, () => RECORD_LINE.check(checkHeader(parseJson(line), "masstone/record"), ""));
  if (number !== end.entries || previous !== end.hash) {
    throw damaged(
      place,
      `entry ${number} does not follow the line before it: lines are missing, doubled or moved`,
    );
  }
  if (broken !== (torn === undefined ? undefined : sha256(torn))) {
    throw damaged(place, "the line before it is not as it was written");
  }
  return { entry: { number, at, entry }, end: { entries: end.entries + 1, hash } };
}

function checkEnd(ends: readonly RecordEnd[], written: RecordEnd): void {
  const found = ends.length - 1;
  if (found < written.entries) {
    const reason = `${written.entries} entries were written and ${found} are whole: what else was poured is not known from this file`;
    throw damaged(`entry ${found}`, reason);
  }
  if (ends[written.entries].hash !== written.hash) {
    throw damaged(`entry ${written.entries - 1}`, "this is not the entry that was written");
  }
}

/** The end of a record from the text of a `masstone/record-end` file. */
export function readRecordEnd(content: string): RecordEnd {
  return RECORD_END.check(checkHeader(parseJson(content), "masstone/record-end"), "");
}

/** The text of a `masstone/record-end` file. */
export function writeRecordEnd(end: RecordEnd): string {
  return `${JSON.stringify({ format: "masstone/record-end", version: FORMAT_VERSIONS["masstone/record-end"], ...end })}\n`;
}

function damaged(place: string, reason: string): InputError {
  return new InputError("damaged-record", place, reason);
}

/** Whether a text is a `masstone/record` rather than one JSON value, by its first line. */
export function isRecord(text: string): boolean {
  return checkableHeader(text)?.format === "masstone/record";
}

function checkableHeader(text: string): Readonly<Record<string, unknown>> | undefined {
  try {
    return checkRecord(parseJson(text.slice(0, text.indexOf("\n") + 1 || text.length)), "");
  } catch {
    return undefined;
  }
}
