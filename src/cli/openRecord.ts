import { InputError } from "../core/InputError.js";
import {
  type JobRecord,
  readRecord,
  readRecordEnd,
  recordLine,
  writeRecordEnd,
} from "../formats/jobRecord.js";
import type { RecordEntry } from "../record/recordEntry.js";
import { fromFile } from "./files.js";
import type { RecordTexts } from "./recordTexts.js";
import { askSystem } from "./systemRefusal.js";
import type { Terminal } from "./terminal.js";
import { formatOf } from "./whatHelps.js";

const RECORD = "masstone/record";

/** A record as it stands on the disk, with what a person should hear of its state. */
export interface OpenRecord {
  readonly path: string;
  readonly texts: RecordTexts;
  readonly record: JobRecord;
  readonly remarks: readonly string[];
}

/** Reads a record; an absent file is a record without entries. Refused where it is damaged or shorter than its end says. */
export function openRecord(terminal: Terminal, path: string): OpenRecord {
  const texts = askSystem("unreadable-file", path, () => terminal.readRecord(path));
  const { text = "", end } = texts;
  const written =
    end === undefined
      ? undefined
      : fromFile({ ...terminal, readFile: () => end }, `${path}.end`, readRecordEnd);
  const record = fromFile({ ...terminal, readFile: () => text }, path, (content) => {
    const isOther = content !== "" && (formatOf(content) ?? RECORD) !== RECORD;
    if (isOther || /^\s*[^\s{]/.test(content)) {
      throw new InputError("wrong-format", "", `"${RECORD}" is needed here`);
    }
    return readRecord(content, written);
  });
  const remarks = [
    ...(record.torn === undefined
      ? []
      : [
          `the last line broke off while it was written and counts for nothing: ${record.torn.slice(0, 200)} … If that was poured, note it again.`,
        ]),
    ...(end === undefined && text !== ""
      ? [`there is no ${path}.end: whether the last entries are missing cannot be told.`]
      : []),
  ];
  return { path, texts, record, remarks };
}

/** Appends entries to a record as it was read, and returns how it stands then. */
export function appendEntries(
  terminal: Terminal,
  open: OpenRecord,
  entries: readonly RecordEntry[],
): OpenRecord {
  if (entries.length === 0) return open;
  const { text = "" } = open.texts;
  let at: Pick<JobRecord, "end" | "torn"> = open.record;
  let lines = text === "" || text.endsWith("\n") ? "" : "\n";
  for (const entry of entries) {
    const next = recordLine(at, entry, terminal.now());
    lines += next.line;
    at = { end: next.end };
  }
  const end = writeRecordEnd(at.end);
  // Read back before it is written: a line that cannot be read must not be stored.
  const texts = { text: text + lines, end };
  const record = readRecord(texts.text, at.end);
  askSystem("unwritable-file", open.path, () =>
    terminal.appendToRecord(open.path, { read: open.texts, lines, end }),
  );
  return { ...open, texts, record };
}
