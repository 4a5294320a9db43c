import Ajv from "ajv/dist/2020.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import readingsSchema from "../../docs/schemas/readings.json";
import { InputError } from "../../src/core/InputError.js";
import type { Declared } from "../../src/formats/declared.js";
import { NAMED_READINGS, type NamedReading, type ReadingsFile } from "../../src/formats/namedReading.js";
import { readReadingsCgats, writeReadingsCgats } from "../../src/formats/readingsCgats.js";
import { readReadingsCsv, writeReadingsCsv } from "../../src/formats/readingsCsv.js";
import { readReadingsCxf3, writeReadingsCxf3 } from "../../src/formats/readingsCxf3.js";
import { readReadingsJson, writeReadingsJson } from "../../src/formats/readingsJson.js";
import { sameGrid } from "../../src/spectra/grid.js";
import { plainReadings, readingsOnManyGrids, readingsOnOneGrid } from "../fixtures/namedReadings.js";
import { refusal } from "../support/refusal.js";

interface Format {
  readonly name: string;
  readonly read: (text: string) => ReadingsFile;
  readonly write: (readings: readonly NamedReading[]) => string;
  readonly lists: fc.Arbitrary<readonly NamedReading[]>;
}

const formats: readonly Format[] = [
  { name: "CSV", read: readReadingsCsv, write: writeReadingsCsv, lists: readingsOnOneGrid },
  { name: "CGATS", read: readReadingsCgats, write: writeReadingsCgats, lists: readingsOnManyGrids },
  { name: "CxF3", read: readReadingsCxf3, write: writeReadingsCxf3, lists: readingsOnManyGrids },
  { name: "JSON", read: readReadingsJson, write: writeReadingsJson, lists: readingsOnManyGrids },
];

/** Mutations of a text: cut, repeated, swapped, deleted lines, numbers and words put where others were. */
const mutations = fc.array(
  fc.record({
    how: fc.constantFrom("cut", "repeat", "swap", "delete line", "repeat line", "number", "word", "insert"),
    at: fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }),
    to: fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }),
    number: fc.constantFrom(
      "1e999",
      "NaN",
      "-1",
      "1e308",
      "12,5",
      "25",
      "0",
      "Infinity",
      "5e-324",
      "--1",
      "",
    ),
    insert: fc.constantFrom('"', "\n", "\0", "<", "&x;", ",", ";", "\t", "#", "]]>", "\uD800", "{", " "),
  }),
  { minLength: 1, maxLength: 3 },
);
type Mutation = typeof mutations extends fc.Arbitrary<readonly (infer T)[]> ? T : never;

function mutate(text: string, { how, at, to, number, insert }: Mutation): string {
  const a = Math.floor(at * text.length);
  const b = Math.min(text.length, a + Math.floor(to * 200));
  const lines = text.split("\n");
  const line = Math.floor(at * lines.length);
  const replaceOne = (pattern: RegExp, replacement: string) => {
    const found = [...text.matchAll(pattern)];
    if (found.length === 0) return text;
    const { index, 0: old } = found[Math.floor(at * found.length)];
    return text.slice(0, index) + replacement + text.slice(index + old.length);
  };
  if (how === "cut") return text.slice(0, a);
  if (how === "repeat") return text.slice(0, b) + text.slice(a);
  if (how === "swap")
    return text.slice(0, a) + text.slice(b, b + 3) + text.slice(a + 3, b) + text.slice(a, a + 3);
  if (how === "delete line") return lines.toSpliced(line, 1).join("\n");
  if (how === "repeat line") return lines.toSpliced(line, 0, lines[line]).join("\n");
  if (how === "number") return replaceOne(/\d+(\.\d+)?/g, number);
  if (how === "word") return replaceOne(/[A-Za-z_]{3,}/g, number === "" ? "" : "sphere");
  return text.slice(0, a) + insert + text.slice(a);
}

describe.each(formats)("readings as $name", ({ read, write, lists }) => {
  it("come back as they were written", () => {
    fc.assert(
      fc.property(lists, (list) => {
        const { readings, leftOut } = read(write(list));
        expect(plainReadings(readings)).toEqual(plainReadings(list));
        expect(leftOut).toEqual([]);
      }),
      { numRuns: 200, seed: 1 },
    );
  });

  it("keep wavelengths that no binary fraction holds to within rounding", () => {
    const grid = { start: 380, step: 10 / 3, count: 106 };
    const reading = { geometry: "45as15", grid, reflectance: new Float64Array(106).fill(1.5) } as const;
    expect(sameGrid(read(write([{ name: "silver", reading }])).readings[0].reading.grid, grid)).toBe(true);
  });

  it("spoilt at random end in an InputError with a code, or in readings that hold", () => {
    const count = { read: 0, refused: 0 };
    fc.assert(
      fc.property(lists, mutations, (list, changes) => {
        const text = changes.reduce(mutate, write(list));
        try {
          NAMED_READINGS.check(read(text).readings, "");
          count.read++;
        } catch (error) {
          if (!(error instanceof InputError)) throw error;
          expect(error.code).toMatch(/^[a-z0-9-]+$/);
          count.refused++;
        }
      }),
      { numRuns: 1000, seed: 2 },
    );
    // Both ways must have been gone, or the mutations test nothing.
    expect(count.read).toBeGreaterThan(30);
    expect(count.refused).toBeGreaterThan(300);
  });

  it.each(["", " \n", "\uFEFF", "readings", "\0", "<", "[1]", "BEGIN_DATA", "400,410,420"])(
    "are not found in %j",
    (text) => {
      expect(() => read(text)).toThrow(InputError);
    },
  );

  it("are refused when more text comes than paint fills", () => {
    expect(refusal(() => read("a\n".repeat(25_000_001))).code).toBe("too-large");
  });

  const reading = {
    geometry: "45:0",
    grid: { start: 400, step: 10, count: 3 },
    reflectance: [0.1, 0.2, 0.3],
  } as const;
  it.each([
    ["an empty list", [], "wrong-length", "readings"],
    ["a name of two lines", [{ name: "a\nb", reading }], "wrong-type", "readings[0].name"],
    ["half a surrogate", [{ name: "a", note: "\uD800", reading }], "wrong-type", "readings[0].note"],
    ["no name", [{ name: " ", reading }], "missing", "readings[0].name"],
    [
      "no aperture",
      [{ name: "a", apertureMillimetres: 0, reading }],
      "out-of-range",
      "readings[0].apertureMillimetres",
    ],
    [
      "per cent",
      [{ name: "a", reading: { ...reading, reflectance: [1, 2, 3] } }],
      "percent-not-fraction",
      "readings[0].reading.reflectance[2]",
    ],
  ])("are not written from %s", (_, list, code, path) => {
    expect(refusal(() => write(list))).toEqual({ code, path });
  });
});

it.each([readReadingsCsv, readReadingsCgats, readReadingsCxf3])(
  "%o refuses a misspelt declaration",
  (read) => {
    const declared = { geometrie: "45:0" } as unknown as Declared;
    expect(refusal(() => read("", declared))).toEqual({ code: "unknown-key", path: "declared.geometrie" });
  },
);

describe("the schema of masstone/readings", () => {
  const isReadings = new Ajv({ strict: true }).compile(readingsSchema);

  it("accepts what is written", () => {
    fc.assert(
      fc.property(readingsOnManyGrids, (list) => {
        expect(isReadings(JSON.parse(writeReadingsJson(list))), JSON.stringify(isReadings.errors)).toBe(true);
      }),
      { numRuns: 100, seed: 3 },
    );
  });

  it("accepts what is read from spoilt files", () => {
    fc.assert(
      fc.property(readingsOnManyGrids, mutations, (list, changes) => {
        const text = changes.reduce(mutate, writeReadingsJson(list));
        try {
          readReadingsJson(text);
        } catch {
          return;
        }
        expect(isReadings(JSON.parse(text)), JSON.stringify(isReadings.errors)).toBe(true);
      }),
      { numRuns: 500, seed: 4 },
    );
  });
});
