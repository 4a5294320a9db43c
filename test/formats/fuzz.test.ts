import Ajv from "ajv/dist/2020.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import correctionSchema from "../../docs/schemas/correction.json";
import jobSchema from "../../docs/schemas/job.json";
import { InputError } from "../../src/core/InputError.js";
import { correct } from "../../src/correction/correct.js";
import { readJob } from "../../src/formats/jobFile.js";
import { horseboxJson } from "../fixtures/horsebox.js";
import { mutated, mutationsOf } from "../fixtures/mutations.js";

const noToners = () => {
  throw new InputError("unreadable-file", "toners", "no file here");
};

const example = horseboxJson();

describe("mutated job files", () => {
  const ajv = new Ajv({ strict: true, allErrors: false, allowUnionTypes: true });
  const isJob = ajv.compile(jobSchema);
  const isCorrection = ajv.compile(correctionSchema);

  it("end in an answer that fits its schema, or in an InputError with a code; what is read fits the job schema", () => {
    const count = { answers: 0, refusals: 0 };
    fc.assert(
      fc.property(mutationsOf(example), (mutations) => {
        const text = JSON.stringify(mutated(example, mutations));
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
