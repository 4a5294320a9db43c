import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/InputError.js";
import { correct } from "../../src/correction/correct.js";
import { readJob, readMix } from "../../src/formats/jobFile.js";
import { readToners, writeToners } from "../../src/formats/tonersFile.js";
import { horseboxJson, horseboxToners } from "../fixtures/horsebox.js";

type Json = Record<string, unknown>;

const noToners = () => {
  throw new InputError("unreadable-file", "toners", "no file here");
};

/** The error that a job gives after `spoil` has been at it. */
function refusal(spoil: (job: Json) => void): { code: string; path: string; reason: string } {
  const job = structuredClone(horseboxJson());
  spoil(job);
  try {
    correct(readJob(JSON.stringify(job), noToners));
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("nothing was refused");
}

// biome-ignore lint/suspicious/noExplicitAny: the job is spoilt on purpose, outside its type.
const at = (job: Json, ...keys: (string | number)[]): any =>
  keys.reduce((value, key) => (value as Record<string | number, Json>)[key] as Json, job);

const G = "d:8 specular excluded";

describe("a job file is refused with a code and a place", () => {
  const cases: readonly [string, (job: Json) => void, string, string][] = [
    ["no format", (job) => delete job.format, "wrong-format", "format"],
    ["another version", (job) => (job.version = 2), "wrong-version", "version"],
    ["no viewing", (job) => delete job.viewing, "missing", "viewing"],
    ["no observer", (job) => delete at(job, "viewing").observer, "missing", "viewing.observer"],
    [
      "unknown observer",
      (job) => (at(job, "viewing").observer = "2006-2"),
      "unknown-observer",
      "viewing.observer",
    ],
    ["no illuminant", (job) => (at(job, "viewing").illuminants = []), "wrong-length", "viewing.illuminants"],
    [
      "unknown illuminant",
      (job) => (at(job, "viewing", "illuminants", 0).name = "D66"),
      "unknown-illuminant",
      "viewing.illuminants[0].name",
    ],
    ["unknown toner in the pot", (job) => (at(job, "pot").mauve = 3), "unknown-toner", "pot.mauve"],
    ["negative grams", (job) => (at(job, "pot").white = -1), "out-of-range", "pot.white"],
    ["an empty pot", (job) => (job.pot = {}), "no-pigment", "pot"],
    ["a pot of clear alone", (job) => (job.pot = { clear: 10 }), "no-pigment", "pot"],
    ["a tonne too much", (job) => (at(job, "pot").white = 1e9), "out-of-range", "pot.white"],
    ["no card", (job) => delete job.card, "missing", "card"],
    ["no readings of the card", (job) => (at(job, "card").readings = []), "missing", "card.readings"],
    ["no targets", (job) => (job.targets = []), "wrong-length", "targets"],
    [
      "a reading too short",
      (job) => at(job, "targets", 0, "readings", 0, "reflectance").pop(),
      "wrong-length",
      "targets[0].readings[0].reflectance",
    ],
    [
      "NaN, which JSON writes as null",
      (job) => (at(job, "card", "readings", 0, "reflectance")[3] = Number.NaN),
      "wrong-type",
      "card.readings[0].reflectance[3]",
    ],
    [
      "per cent instead of a fraction",
      (job) => (at(job, "card", "readings", 0, "reflectance")[5] = 42.6),
      "percent-not-fraction",
      "card.readings[0].reflectance[5]",
    ],
    [
      "negative reflectance",
      (job) => (at(job, "card", "readings", 0, "reflectance")[5] = -0.01),
      "out-of-range",
      "card.readings[0].reflectance[5]",
    ],
    [
      "unknown geometry",
      (job) => (at(job, "card", "readings", 0).geometry = "0:45"),
      "unknown-geometry",
      "card.readings[0].geometry",
    ],
    [
      "a geometry that the toners lack",
      (job) => (at(job, "targets", 1, "readings", 0).geometry = "45:0"),
      "unknown-geometry",
      "targets[1].readings[0].geometry",
    ],
    [
      "the same geometry twice",
      (job) => at(job, "card", "readings").push(at(job, "card", "readings", 0)),
      "duplicate",
      "card.readings[1].geometry",
    ],
    ["a misspelt limit", (job) => (at(job, "limits").potMaxGram = 1), "unknown-key", "limits.potMaxGram"],
    ["no pours at all", (job) => (at(job, "limits").maxPours = 0), "out-of-range", "limits.maxPours"],
    ["half a pour", (job) => (at(job, "limits").maxPours = 1.5), "wrong-type", "limits.maxPours"],
    [
      "a negative scale step",
      (job) => (at(job, "limits").scaleStepGrams = -0.1),
      "out-of-range",
      "limits.scaleStepGrams",
    ],
    [
      "stock of an unknown toner",
      (job) => (at(job, "limits", "stockGrams").mauve = 3),
      "unknown-toner",
      "limits.stockGrams.mauve",
    ],
    ["an unknown role", (job) => (at(job, "targets", 0).role = "middle"), "unknown-word", "targets[0].role"],
    [
      "two targets of one name",
      (job) => (at(job, "targets", 1).name = "near-side door"),
      "duplicate",
      "targets[1].name",
    ],
    [
      "no weight anywhere",
      (job) => {
        for (const target of at(job, "targets")) target.weight = 0;
      },
      "out-of-range",
      "targets",
    ],
    [
      "a tolerance of nothing",
      (job) => (job.tolerance = { edgeDeltaE00: 0 }),
      "out-of-range",
      "tolerance.edgeDeltaE00",
    ],
    ["a misspelt tolerance", (job) => (job.tolerance = { edge: 1 }), "unknown-key", "tolerance.edge"],
    [
      "K of the wrong length",
      (job) => at(job, "toners", "toners", 2, "k", G).push(1),
      "wrong-length",
      `toners.toners[2].k["${G}"]`,
    ],
    [
      "negative S",
      (job) => (at(job, "toners", "toners", 2, "s", G)[0] = -1),
      "out-of-range",
      `toners.toners[2].s["${G}"][0]`,
    ],
    [
      "a toner twice",
      (job) => (at(job, "toners", "toners", 1).id = "white"),
      "duplicate",
      "toners.toners[1].id",
    ],
    [
      "a grid beyond sight",
      (job) => (at(job, "toners", "grid").start = 300),
      "out-of-range",
      "toners.grid.start",
    ],
    ["an absurd grid", (job) => (at(job, "toners", "grid").count = 1e9), "out-of-range", "toners.grid"],
    [
      "k2 of one",
      (job) => (at(job, "toners", "surfaces", 0).k2 = 1),
      "out-of-range",
      "toners.surfaces[0].k2",
    ],
    [
      "readings that share no band",
      (job) => {
        const reading = at(job, "card", "readings", 0);
        reading.grid = { start: 710, step: 10, count: 12 };
        reading.reflectance = new Array(12).fill(0.4);
      },
      "outside-grid",
      "card.readings",
    ],
  ];
  it.each(cases)("%s", (_, spoil, code, path) => {
    expect(refusal(spoil)).toMatchObject({ code, path });
  });

  it("shows where unreadable JSON stops making sense", () => {
    expect(() => readJob('{\n  "format": oops}', noToners)).toThrow(
      /^line 2, column 13: [a-zA-Z ]+ \[unreadable-json\]$/,
    );
  });

  it("wants numbers, not texts that look like them", () => {
    expect(refusal((job) => (at(job, "pot").white = "180"))).toMatchObject({
      code: "wrong-type",
      path: "pot.white",
    });
  });
});

describe("toner files", () => {
  it("come back as they were written", () => {
    const set = horseboxToners();
    expect(readToners(writeToners(set))).toEqual(set);
  });

  it("are refused with their place", () => {
    expect(() => readToners('{"format":"masstone/job","version":1}')).toThrow(/^format: .*\[wrong-format\]$/);
    expect(() => readToners("[]")).toThrow(/a record is needed here, not a list \[wrong-type\]/);
  });
});

describe("a job for predict", () => {
  it("needs no card, no targets and no limits, and may name its toners", () => {
    const { card: _card, targets: _targets, limits: _limits, ...rest } = horseboxJson();
    const asked: string[] = [];
    const mix = readMix(JSON.stringify({ ...rest, toners: "toners.json" }), (name) => {
      asked.push(name);
      return horseboxToners();
    });
    expect(asked).toEqual(["toners.json"]);
    expect(mix.pot).toEqual(rest.pot);
  });
});
