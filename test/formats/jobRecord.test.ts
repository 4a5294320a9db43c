import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/InputError.js";
import {
  type JobRecord,
  NO_ENTRIES,
  readRecord,
  readRecordEnd,
  recordLine,
  writeRecordEnd,
} from "../../src/formats/jobRecord.js";
import { sha256 } from "../../src/formats/sha256.js";
import { jobState } from "../../src/record/jobState.js";
import type { RecordEntry } from "../../src/record/recordEntry.js";

const AT = "2026-03-31T14:05:00.000Z";
const ENTRIES: readonly RecordEntry[] = [
  { kind: "job", job: { toners: "toners.json" } },
  { kind: "pour", toner: "white", grams: 120.5 },
  { kind: "pour", toner: "ochre", grams: 7.1, can: "17" },
  { kind: "note", text: "rührt sich schwer" },
];

function written(entries: readonly RecordEntry[]): { readonly text: string; readonly record: JobRecord } {
  let text = "";
  let end = NO_ENTRIES;
  for (const entry of entries) {
    const next = recordLine({ end }, entry, AT);
    text += next.line;
    end = next.end;
  }
  return { text, record: readRecord(text, end) };
}

const { text: TEXT, record: RECORD } = written(ENTRIES);
const BYTES = Buffer.from(TEXT, "utf8");

/** What a reader makes of the bytes: refused with a code, or the entries, with what is torn. */
function outcome(bytes: Buffer, end = RECORD.end): { readonly refused: string } | JobRecord {
  try {
    return readRecord(bytes.toString("utf8"), end);
  } catch (error) {
    if (error instanceof InputError) return { refused: error.code };
    throw error;
  }
}

describe("sha256", () => {
  it("is that of FIPS 180-4 for its printed examples", () => {
    expect(sha256("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    expect(sha256("")).toBe("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  });
});

describe("a record", () => {
  it("comes back as it was written", () => {
    expect(RECORD.entries.map(({ entry }) => entry)).toEqual(ENTRIES);
    expect(RECORD.entries.map(({ number }) => number)).toEqual([0, 1, 2, 3]);
    expect(RECORD.torn).toBeUndefined();
    expect(readRecordEnd(writeRecordEnd(RECORD.end))).toEqual(RECORD.end);
    expect(jobState(RECORD.entries).pot).toEqual({ white: 120.5, ochre: 7.1 });
  });

  it("cut off at any byte is refused by its end", () => {
    // Without its last newline nothing is missing.
    for (let length = 0; length < BYTES.length - 1; length++) {
      expect(outcome(BYTES.subarray(0, length)), `${length} bytes`).toEqual({ refused: "damaged-record" });
    }
  });

  it("cut off at any byte without its end: the whole lines, and what is torn is said and kept", () => {
    for (let length = 0; length < BYTES.length; length++) {
      const part = BYTES.subarray(0, length);
      const found = outcome(part, NO_ENTRIES);
      if ("refused" in found) throw new Error(`${length} bytes: ${found.refused}`);
      expect(found.entries).toEqual(RECORD.entries.slice(0, found.entries.length));
      const whole = TEXT.split("\n").slice(0, found.entries.length).join("\n");
      const rest = part.toString("utf8").slice(whole.length).replace(/^\n/, "");
      expect(found.torn ?? "").toBe(rest);
    }
  });

  it("with any one bit flipped is refused, or is what it was but for the last newline", () => {
    for (let i = 0; i < BYTES.length; i++) {
      for (let bit = 0; bit < 8; bit++) {
        const flipped = Buffer.from(BYTES);
        flipped[i] ^= 1 << bit;
        const withEnd = outcome(flipped);
        expect(withEnd, `byte ${i}, bit ${bit}`).toEqual({ refused: "damaged-record" });
        const alone = outcome(flipped, NO_ENTRIES);
        if ("refused" in alone) continue;
        // Without an end a broken last line is taken for one that was not written whole: said, and kept.
        expect(alone.entries).toEqual(RECORD.entries.slice(0, alone.entries.length));
        expect(alone.entries.length).toBeGreaterThanOrEqual(ENTRIES.length - 1);
        expect(alone.torn).toBeDefined();
      }
    }
  });

  it("with lines moved, doubled, missing or of another record is refused", () => {
    const lines = TEXT.trimEnd().split("\n");
    const other = written([ENTRIES[0], { kind: "pour", toner: "white", grams: 1 }, ENTRIES[2], ENTRIES[3]]);
    const foreign = other.text.trimEnd().split("\n");
    for (const changed of [
      [lines[0], lines[2], lines[1], lines[3]],
      [lines[0], lines[1], lines[1], lines[2], lines[3]],
      [lines[0], lines[2], lines[3]],
      [lines[1], lines[2], lines[3]],
      [lines[0], foreign[1], lines[2], lines[3]],
      [lines[0], "", lines[1], lines[2], lines[3]],
    ]) {
      const bytes = Buffer.from(`${changed.join("\n")}\n`, "utf8");
      expect(outcome(bytes, NO_ENTRIES)).toEqual({ refused: "damaged-record" });
    }
    expect(outcome(Buffer.from(other.text, "utf8"))).toEqual({ refused: "damaged-record" });
  });

  it("goes on after a torn line, which stays in it and must stay as it is", () => {
    const torn = TEXT.slice(0, TEXT.length - 40);
    const found = readRecord(torn);
    expect(found.entries).toHaveLength(3);
    const { line, end } = recordLine(found, { kind: "pour", toner: "white", grams: 2 }, AT);
    const mended = `${torn}\n${line}`;
    const again = readRecord(mended, end);
    expect(again.torn).toBeUndefined();
    expect(jobState(again.entries).pot).toEqual({ white: 122.5, ochre: 7.1 });
    expect(() => readRecord(mended.replace("schwer", "leicht"), end)).toThrow(/\[damaged-record\]$/);
    expect(
      () => readRecord(mended.replace(torn.slice(torn.lastIndexOf("\n") + 1), "")),
      "torn line gone",
    ).toThrow(/\[damaged-record\]$/);
  });

  it("of a version not known, or with an entry that makes no sense, is refused though its hashes hold", () => {
    const bad = recordLine({ end: NO_ENTRIES }, { kind: "pour", toner: "white", grams: -3 }, AT);
    expect(() => readRecord(bad.line)).toThrow(/entry 0: entry\.grams: .*\[out-of-range\]$/);
    const body = JSON.stringify({
      format: "masstone/record",
      version: 2,
      number: 0,
      previous: NO_ENTRIES.hash,
    });
    const line = `${body.slice(0, -1)},"hash":"${sha256(body)}"}\n`;
    expect(() => readRecord(line)).toThrow(/\[wrong-version\]$/);
  });
});
