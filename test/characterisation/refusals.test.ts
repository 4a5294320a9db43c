import { describe, expect, it } from "vitest";
import { characterise } from "../../src/characterisation/characterise.js";
import type { CharacterisationJob } from "../../src/characterisation/job.js";
import { refusal } from "../support/refusal.js";
import { drawDown, GRID, jobOf } from "./world.js";

const CHART = [0.05, 0.85];
const samples = [
  drawDown("white", { recipe: { white: 1 }, thickness: 1, backings: CHART }),
  drawDown("red", { recipe: { red: 1 }, thickness: 1, backings: CHART }),
];
const job = jobOf(samples);
const [white, red] = samples;
const [overBlack, overWhite] = white.readings;
const withReading = (change: object): CharacterisationJob => ({
  ...job,
  samples: [{ ...white, readings: [{ ...overBlack, ...change }, overWhite] }, red],
});

describe("characterise refuses, with code and place", () => {
  it.each<[string, unknown, { code: string; path: string }]>([
    ["no job", undefined, { code: "missing", path: "" }],
    ["no samples", { ...job, samples: [] }, { code: "wrong-length", path: "samples" }],
    [
      "a recipe with an unknown toner",
      { ...job, samples: [{ ...white, recipe: { wite: 1 } }, red] },
      { code: "unknown-toner", path: "samples[0].recipe.wite" },
    ],
    [
      "an empty recipe",
      { ...job, samples: [{ ...white, recipe: {} }, red] },
      { code: "no-pigment", path: "samples[0].recipe" },
    ],
    [
      "two samples of one name",
      { ...job, samples: [white, { ...red, name: "white" }] },
      { code: "duplicate", path: "samples[1].name" },
    ],
    [
      "a toner that no sample holds",
      { ...job, toners: [...job.toners, { id: "blue" }] },
      { code: "missing", path: "toners[2]" },
    ],
    [
      "a reading on another grid",
      withReading({ grid: { ...GRID, start: 480 } }),
      { code: "outside-grid", path: "samples[0].readings[0].grid" },
    ],
    [
      "a reading at a geometry without a surface",
      withReading({ geometry: "45:0" }),
      { code: "unknown-geometry", path: "samples[0].readings[0].geometry" },
    ],
    [
      "a backing of the wrong length",
      withReading({ backing: [0.05] }),
      { code: "wrong-length", path: "samples[0].readings[0].backing" },
    ],
    [
      "per cent where a fraction belongs",
      withReading({ reflectance: [4, 4, 4, 4, 4] }),
      { code: "percent-not-fraction", path: "samples[0].readings[0].reflectance[0]" },
    ],
    [
      "a film of no thickness",
      { ...job, samples: [{ ...white, thickness: 0 }, red] },
      { code: "out-of-range", path: "samples[0].thickness" },
    ],
    ["an unknown reference", { ...job, reference: "grey" }, { code: "unknown-toner", path: "reference" }],
    [
      "a misspelt option",
      { ...job, options: { smothness: 1 } },
      { code: "unknown-key", path: "options.smothness" },
    ],
    [
      "a reading without error",
      { ...job, options: { reflectanceSd: { floor: 0, relative: 0 } } },
      { code: "out-of-range", path: "options.reflectanceSd.floor" },
    ],
    [
      "a candidate on a backing that is none",
      { ...job, candidates: [{ recipe: { red: 1 }, backing: "grey" }] },
      { code: "unknown-word", path: "candidates[0].backing" },
    ],
  ])("%s", (_, wrong, expected) => {
    expect(refusal(() => characterise(wrong as CharacterisationJob))).toEqual(expected);
  });
});
