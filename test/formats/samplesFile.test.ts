import { readFileSync } from "node:fs";
import Ajv from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import samplesSchema from "../../docs/schemas/samples.json";
import { InputError } from "../../src/core/InputError.js";
import { readSamples } from "../../src/formats/samplesFile.js";

const file = (name: string) =>
  readFileSync(new URL(`../../examples/ladder/${name}`, import.meta.url), "utf8");
const example = () => JSON.parse(file("samples.json"));

/** The job, or the refusal, of the example after `spoil` has been at it. */
function read(spoil: (samples: ReturnType<typeof example>) => void = () => {}, csv = file("readings.csv")) {
  const samples = example();
  spoil(samples);
  return readSamples(JSON.stringify(samples), () => csv);
}

describe("samples files", () => {
  it("find the readings of each sample by name, and the bare charts under them", () => {
    const { job, leftOut } = read();
    expect(job.samples).toHaveLength(15);
    expect(leftOut).toEqual([]);
    const [first] = job.samples;
    expect(first.readings.map(({ backingName }) => backingName)).toEqual(["black", "white"]);
    const rows = file("readings.csv")
      .split("\n")
      .map((line) => line.split(","));
    const cell = (name: string, backing: string) => rows.find(([n, b]) => n === name && b === backing)?.[2];
    expect(first.readings[1].reflectance[0]).toBeCloseTo(Number(cell("white", "white")) / 100, 12);
    expect(first.readings[1].backing?.[0]).toBeCloseTo(Number(cell("bare white", "")) / 100, 12);
  });

  it("fit their schema, the example as it stands", () => {
    const isSamples = new Ajv({ strict: true, allowUnionTypes: true }).compile(samplesSchema);
    expect(isSamples(example()), JSON.stringify(isSamples.errors)).toBe(true);
    const misspelt = example();
    misspelt.options.thicknesSd = 1;
    expect(isSamples(misspelt)).toBe(false);
  });

  it("take readings that stand in the samples themselves, and say what was not used", () => {
    const readings = read().job.samples[0].readings.map(({ reflectance, backing = [], ...reading }) => ({
      ...reading,
      reflectance: Array.from(reflectance),
      backing: Array.from(backing),
    }));
    const { job, leftOut } = read((samples) => {
      samples.samples[0].readings = readings;
    });
    expect(job.samples[0].readings).toEqual(readings);
    expect(leftOut).toEqual(['reading "white"']);
  });

  it.each<[string, Parameters<typeof read>[0], string, string]>([
    ["another format", (s) => (s.format = "masstone/job"), "wrong-format", "format"],
    ["a sample without readings", (s) => (s.samples[3].name = "umber"), "missing", "samples[3].readings"],
    ["a backing nobody named", (s) => delete s.backings.white, "missing", "backings.white"],
    ["a bare chart that was not read", (s) => (s.backings.white = "chart"), "missing", "backings.white"],
    ["per cent not declared", (s) => delete s.files[0].scale, "missing", "readings.csv: line 2, column 1"],
    [
      "no geometry declared",
      (s) => delete s.files[0].geometry,
      "unknown-geometry",
      "readings.csv: line 2, column 1",
    ],
    ["a kind that nobody knows", (s) => (s.files[0].kind = "xls"), "unknown-word", "files[0].kind"],
    [
      "a name that tells no kind",
      (s) => (s.files[0].name = "readings"),
      "wrong-format",
      "readings: files[0].kind",
    ],
    ["a misspelt key of a file", (s) => (s.files[0].scal = "percent"), "unknown-key", "files[0].scal"],
    [
      "an unknown toner in a recipe",
      (s) => (s.samples[0].recipe.umber = 1),
      "unknown-toner",
      "samples[0].recipe.umber",
    ],
    [
      "a grid wider than the readings",
      (s) => (s.grid = { start: 380, step: 10, count: 33 }),
      "outside-grid",
      "grid",
    ],
  ])("are refused with code and place: %s", (_, spoil, code, path) => {
    let refusal: unknown;
    try {
      read(spoil);
    } catch (error) {
      refusal = error;
    }
    expect(refusal).toBeInstanceOf(InputError);
    expect(refusal).toMatchObject({ code, path });
  });
});
