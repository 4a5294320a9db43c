import Ajv from "ajv/dist/2020.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/InputError.js";
import { correct } from "../../src/correction/correct.js";
import { readJob } from "../../src/formats/jobFile.js";
import correctionSchema from "../../src/formats/schemas/correction.json";
import jobSchema from "../../src/formats/schemas/job.json";
import { horseboxJson } from "../fixtures/horsebox.js";

type Path = readonly (string | number)[];

const noToners = () => {
  throw new InputError("unreadable-file", "toners", "no file here");
};

/** Every place in a JSON value, lists of numbers only at their first entries. */
function places(value: unknown, path: Path = []): readonly Path[] {
  if (typeof value !== "object" || value === null) return [path];
  const entries = Array.isArray(value) ? [...value.slice(0, 3).entries()] : Object.entries(value);
  return [path, ...entries.flatMap(([key, inner]) => places(inner, [...path, key]))];
}

const example = horseboxJson();
const everywhere = places(example).filter((path) => path.length > 0);

const nonsense = fc.oneof(
  fc.constantFrom<unknown>(
    null,
    "",
    "white",
    true,
    [],
    {},
    -1,
    0,
    1e308,
    -1e-300,
    5e-324,
    Number.MAX_VALUE,
    "__proto__",
    [[]],
    42.5,
  ),
  fc.double(),
  fc.jsonValue(),
);

type Change = {
  readonly path: Path;
  readonly how: "replace" | "delete" | "add" | "repeat";
  readonly value: unknown;
};

const changes: fc.Arbitrary<readonly Change[]> = fc.array(
  fc.record({
    path: fc.constantFrom(...everywhere),
    how: fc.constantFrom("replace", "delete", "add", "repeat"),
    value: nonsense,
  }),
  { minLength: 1, maxLength: 3 },
);

function spoil(value: unknown, { path, how, value: put }: Change): void {
  // biome-ignore lint/suspicious/noExplicitAny: the job is spoilt on purpose, outside its type.
  let parent: any = value;
  for (const key of path.slice(0, -1)) {
    parent = parent?.[key];
    if (typeof parent !== "object" || parent === null) return;
  }
  const key = path[path.length - 1];
  if (how === "delete") Array.isArray(parent) ? parent.splice(Number(key), 1) : delete parent[key];
  else if (how === "add") Array.isArray(parent) ? parent.push(put) : Object.assign(parent, { surprise: put });
  else if (how === "repeat")
    parent[key] = Array.isArray(parent[key]) ? [...parent[key], ...parent[key]] : put;
  else parent[key] = put;
}

describe("mutated job files", () => {
  const ajv = new Ajv({ strict: true, allErrors: false, allowUnionTypes: true });
  const isJob = ajv.compile(jobSchema);
  const isCorrection = ajv.compile(correctionSchema);

  it("end in an answer that fits its schema, or in an InputError with a code; what is read fits the job schema", () => {
    const count = { answers: 0, refusals: 0 };
    fc.assert(
      fc.property(changes, (list) => {
        const job = structuredClone(example);
        for (const change of list) spoil(job, change);
        const text = JSON.stringify(job);
        let correction: unknown;
        try {
          correction = correct(readJob(text, noToners));
        } catch (error) {
          if (!(error instanceof InputError)) throw error;
          expect(error.code).toMatch(/^[a-z-]+$/);
          count.refusals++;
          return;
        }
        count.answers++;
        expect(isJob(JSON.parse(text)), JSON.stringify(isJob.errors)).toBe(true);
        expect(
          isCorrection(JSON.parse(JSON.stringify(correction))),
          JSON.stringify(isCorrection.errors),
        ).toBe(true);
      }),
      { numRuns: 1500, seed: 10 },
    );
    // Both ways must have been gone, or the mutations test nothing.
    expect(count.answers).toBeGreaterThan(50);
    expect(count.refusals).toBeGreaterThan(200);
  }, 300_000);

  it("that are cut off anywhere are unreadable JSON", () => {
    const text = JSON.stringify(example);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: text.length - 1 }), (length) => {
        expect(() => readJob(text.slice(0, length), noToners)).toThrow(/\[unreadable-json\]$/);
      }),
      { numRuns: 200, seed: 11 },
    );
  });
});
