import { readFileSync } from "node:fs";
import Ajv from "ajv/dist/2020.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import holdBackSchema from "../../docs/schemas/hold-back.json";
import planSchema from "../../docs/schemas/plan.json";
import { InputError } from "../../src/core/InputError.js";
import { readPlan } from "../../src/formats/readPlan.js";
import { planHoldBack } from "../../src/planning/holdBack/planHoldBack.js";
import { horseboxToners } from "../fixtures/horsebox.js";

const text = readFileSync(new URL("../../examples/horsebox/plan.json", import.meta.url), "utf8");
const toners = () => horseboxToners();
const ajv = new Ajv({ strict: true, allowUnionTypes: true });
const isPlan = ajv.compile(planSchema);
const isAnswer = ajv.compile(holdBackSchema);

/** Places in the file worth spoiling: every key outside the spectra. */
const PLACES = [
  "format",
  "version",
  "toners",
  "viewing",
  "formulas",
  "formulas.0.name",
  "formulas.0.grams",
  "formulas.0.grams.white",
  "formulas.0.readings",
  "formulas.0.readings.0.reflectance.5",
  "panels",
  "panels.1.name",
  "panels.1.role",
  "panels.1.share",
  "panels.1.readings",
  "panels.1.readings.0.geometry",
  "panels.1.readings.0.reflectance.3",
  "wantedGrams",
  "limits",
  "limits.potMaxGrams",
  "limits.scaleStepGrams",
  "fadePriors.ochre",
  "fadePriors.ochre.sdLoss",
  "options",
];
const nonsense = fc.constantFrom<unknown>(
  null,
  "",
  true,
  [],
  {},
  -1,
  0,
  0.5,
  1,
  1e308,
  5e-324,
  "blend",
  "sage green, later years",
  { draws: 200 },
  { draws: 200, reachProbability: 0.5 },
  { white: 1 },
);

function spoilt(place: string, value: unknown): unknown {
  const file = JSON.parse(text);
  file.options = { draws: 200 };
  file.panels = file.panels.slice(0, 2);
  const keys = place.split(".");
  const last = keys.pop() ?? "";
  // biome-ignore lint/suspicious/noExplicitAny: the file is spoilt on purpose, outside its type.
  let parent: any = file;
  for (const key of keys) parent = parent[key];
  parent[last] = value;
  return file;
}

describe("masstone/plan", () => {
  it("fits its schema as shipped, and is read", () => {
    expect(isPlan(JSON.parse(text)), JSON.stringify(isPlan.errors)).toBe(true);
    expect(readPlan(text, toners).panels).toHaveLength(3);
  });

  it("spoilt, ends in an answer that fits its schema or in an InputError; what is read fits the plan schema", () => {
    const count = { answers: 0, refusals: 0 };
    fc.assert(
      fc.property(fc.constantFrom(...PLACES), nonsense, (place, value) => {
        const file = spoilt(place, value);
        let answer: unknown;
        try {
          answer = planHoldBack(readPlan(JSON.stringify(file), toners));
        } catch (error) {
          if (!(error instanceof InputError)) throw error;
          count.refusals++;
          return;
        }
        count.answers++;
        expect(isPlan(JSON.parse(JSON.stringify(file))), JSON.stringify(isPlan.errors)).toBe(true);
        expect(isAnswer(JSON.parse(JSON.stringify(answer))), JSON.stringify(isAnswer.errors)).toBe(true);
      }),
      { numRuns: 120, seed: 45 },
    );
    expect(count.answers).toBeGreaterThan(5);
    expect(count.refusals).toBeGreaterThan(40);
  });
});
