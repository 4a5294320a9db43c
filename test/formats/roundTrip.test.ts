import Ajv, { type ValidateFunction } from "ajv/dist/2020.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import jobSchema from "../../docs/schemas/job.json";
import planSchema from "../../docs/schemas/plan.json";
import readingsSchema from "../../docs/schemas/readings.json";
import recordSchema from "../../docs/schemas/record.json";
import recordEndSchema from "../../docs/schemas/record-end.json";
import samplesSchema from "../../docs/schemas/samples.json";
import tonersSchema from "../../docs/schemas/toners.json";
import { InputError } from "../../src/core/InputError.js";
import { readJob } from "../../src/formats/jobFile.js";
import { readRecord, readRecordEnd, recordLine, writeRecordEnd } from "../../src/formats/jobRecord.js";
import { readReadingsJson, writeReadingsJson } from "../../src/formats/readingsJson.js";
import { readPlan } from "../../src/formats/readPlan.js";
import { readSamples } from "../../src/formats/samplesFile.js";
import { readToners, writeToners } from "../../src/formats/tonersFile.js";
import { mutated, mutationsOf } from "../fixtures/mutations.js";
import { smallSet } from "../toners/smallSet.js";

type Json = Record<string, unknown>;

const ajv = new Ajv({ strict: true, allowUnionTypes: true });
const nowhere = (name: string) => {
  throw new InputError("unreadable-file", "", `no file ${name} here`);
};

const set = smallSet();
const spectra = set.toners[0].k;
const uncertainty = [{ white: { k: spectra, s: spectra } }];
const learnt = {
  date: "2026-03-31",
  pots: ["door"],
  cans: { white: "17" },
  newCan: { white: { strength: 1, strengthSd: 0.2 } },
  logStrength: { white: 0.05 },
  covariance: { white: { white: 0.01 } },
};
const readings = set.surfaces.map(({ geometry }) => ({
  geometry,
  grid: set.grid,
  reflectance: [0.3, 0.4, 0.5, 0.6],
}));
const viewing = { observer: "1964-10", illuminants: [{ name: "D65" }, { name: "D6000K", weight: 0.5 }] };
const limits = { potMaxGrams: 500, scaleStepGrams: 0.1, gramsPerDrop: { white: 0.05 }, maxPours: 3 };
const toners = { format: "masstone/toners", version: 1, ...set, uncertainty, learnt };
const pot = { white: 80, "oxide red": 5 };

const FILES: Readonly<Record<string, { example: Json; schema: object; read: (text: string) => unknown }>> = {
  "masstone/toners": { example: toners, schema: tonersSchema, read: readToners },
  "masstone/job": {
    example: {
      toners,
      viewing,
      pot,
      card: { name: "card 1", readings },
      targets: [
        { name: "door", readings },
        { name: "wing", role: "blend", weight: 0.5, readings },
      ],
      limits,
      objective: "minimax",
      tolerance: { edgeDeltaE00: 0.4 },
      notes: { order: 4711 },
    },
    schema: jobSchema,
    read: (text) => readJob(text, nowhere),
  },
  "masstone/plan": {
    example: {
      toners,
      viewing,
      formulas: [{ name: "first", grams: pot, readings }],
      formula: "first",
      panels: [{ name: "door", share: 2, readings }],
      wantedGrams: 100,
      limits,
      blendAllowance: { hue: 0.5 },
      fadePriors: { white: { meanLoss: 0.1, sdLoss: 0.1 } },
      options: { draws: 500 },
    },
    schema: planSchema,
    read: (text) => readPlan(text, nowhere),
  },
  "masstone/samples": {
    example: {
      grid: set.grid,
      surfaces: set.surfaces,
      toners: [
        { id: "white", role: "white" },
        { id: "black", density: 1.2 },
      ],
      samples: [
        { name: "tint", recipe: { white: 9, black: 1 }, thickness: 40, readings },
        { name: "mass", recipe: { black: 1 }, readings: [{ ...readings[0], backing: [0.1, 0.1, 0.1, 0.1] }] },
      ],
      reference: "white",
      viewing,
      options: { reflectanceSd: { floor: 0.002, relative: 0.01 }, fitSurface: ["k2"] },
      candidates: [{ recipe: { white: 1 }, backing: "opaque" }],
    },
    schema: samplesSchema,
    read: (text) => readSamples(text, nowhere),
  },
  "masstone/readings": {
    example: {
      readings: readings.map((reading) => ({
        name: "door",
        reading,
        backing: "black",
        apertureMillimetres: 8,
      })),
    },
    schema: readingsSchema,
    read: readReadingsJson,
  },
  "masstone/record-end": {
    example: { entries: 3, hash: "0".repeat(64) },
    schema: recordEndSchema,
    read: readRecordEnd,
  },
};

/** Mutants of each file; 20,000 and more of all together. */
const MUTANTS = 3_500;

describe.each(Object.entries(FILES))("%s", (format, { example, schema, read }) => {
  const fits: ValidateFunction = ajv.compile(schema);
  const whole = { format, version: 1, ...example };

  it("is read as it stands, and fits its schema", () => {
    expect(fits(whole), JSON.stringify(fits.errors)).toBe(true);
    expect(() => read(JSON.stringify(whole))).not.toThrow();
  });

  it("ends, mutated, in an error with a code, or is read and fits its schema", () => {
    const count = { read: 0, refused: 0 };
    fc.assert(
      fc.property(mutationsOf(whole), (mutations) => {
        const text = JSON.stringify(mutated(whole, mutations));
        try {
          read(text);
        } catch (error) {
          if (!(error instanceof InputError)) throw error;
          count.refused++;
          return;
        }
        count.read++;
        expect(fits(JSON.parse(text)), `${text} ${JSON.stringify(fits.errors)}`).toBe(true);
      }),
      { numRuns: MUTANTS, seed: 12 },
    );
    // Both ways must have been gone, or the mutants test nothing.
    expect(count.read).toBeGreaterThan(20);
    expect(count.refused).toBeGreaterThan(500);
  }, 300_000);
});

describe("what is written", () => {
  it("toners, with notes and all, are read back equal", () => {
    const [white, ...others] = set.toners;
    const noted = {
      ...set,
      uncertainty,
      learnt,
      notes: [1],
      toners: [{ ...white, density: 1.3, notes: "a" }, ...others],
    };
    const text = writeToners(noted);
    const fits = ajv.compile(tonersSchema);
    expect(fits(JSON.parse(text)), JSON.stringify(fits.errors)).toBe(true);
    expect(readToners(text)).toEqual(noted);
  });

  it("readings are read back equal", () => {
    const named = readings.map((reading) => ({ name: "door", reading, note: "a", notes: { b: 1 } }));
    const text = writeReadingsJson(named);
    const fits = ajv.compile(readingsSchema);
    expect(fits(JSON.parse(text)), JSON.stringify(fits.errors)).toBe(true);
    expect(readReadingsJson(text).readings).toEqual(named);
  });

  it("lines of a record and its end are read back equal", () => {
    const entry = { kind: "card", name: "card 1", readings } as const;
    const job = { kind: "job", job: { toners: "toners.json", targets: [] } } as const;
    const first = recordLine({ end: { entries: 0, hash: "0".repeat(64) } }, job, "2026-03-31T14:05:00.000Z");
    const second = recordLine({ end: first.end }, entry, "2026-03-31T14:06:00.000Z");
    const fits = ajv.compile(recordSchema);
    for (const { line } of [first, second])
      expect(fits(JSON.parse(line)), JSON.stringify(fits.errors)).toBe(true);
    const { entries, end } = readRecord(first.line + second.line, second.end);
    expect(entries.map((one) => one.entry)).toEqual([job, entry]);
    const fitsEnd = ajv.compile(recordEndSchema);
    expect(fitsEnd(JSON.parse(writeRecordEnd(end))), JSON.stringify(fitsEnd.errors)).toBe(true);
    expect(readRecordEnd(writeRecordEnd(end))).toEqual(end);
  });
});
