import { describe, expect, it } from "vitest";
import { correct } from "../../../src/correction/correct.js";
import type { Correction } from "../../../src/correction/correction.js";
import { JOBS } from "./jobs.js";
import { PROMISES } from "./promises.js";

const answers = new Map<string, Correction>();
const answerTo = (name: string): Correction => {
  const correction = answers.get(name) ?? correct(JOBS[name]);
  answers.set(name, correction);
  return correction;
};

describe.each(Object.entries(JOBS))("%s", (name, job) => {
  const before = structuredClone(job);

  it.each(Object.entries(PROMISES))("%s", (_promise, keeps) => {
    keeps(job, answerTo(name));
  });

  it("leaves the job as it was", () => {
    answerTo(name);
    expect(job).toEqual(before);
  });
});

it.each(["the shipped example", "a panel far lighter"])("gives the same record again: %s", (name) => {
  expect(correct(structuredClone(JOBS[name]))).toEqual(answerTo(name));
});

it("has a job for every status", () => {
  const statuses = Object.keys(JOBS).map((name) => answerTo(name).status);
  expect(new Set(statuses)).toEqual(new Set(["corrected", "good-enough", "out-of-reach", "undetermined"]));
});
