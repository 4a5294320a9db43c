import { describe, expect, it } from "vitest";
import { verifyCertificate } from "../../src/certificate/checker/verifyCertificate.js";
import { certify } from "../../src/certificate/prover/certify.js";
import { correct } from "../../src/correction/correct.js";
import type { Job } from "../../src/problem/job.js";
import { horseboxJob } from "../fixtures/horsebox.js";

const example = horseboxJob();
const [target] = example.targets;

/** A panel that no addition comes near. */
const far = {
  ...target,
  name: "to keep an eye on",
  weight: 0,
  readings: target.readings.map((reading) => ({
    ...reading,
    reflectance: Array.from(reading.reflectance, (r) => Math.min(1, 2 * r)),
  })),
};
const alone: Job = { ...example, targets: [target] };
const watched: Job = { ...example, targets: [far, target] };

describe("a target of no weight", () => {
  it.each(["least-squares", "minimax"] as const)("changes neither status nor grams (%s)", (objective) => {
    const without = correct({ ...alone, objective });
    const withIt = correct({ ...watched, objective });
    expect(withIt.status).toBe("corrected");
    expect(withIt.status).toBe(without.status);
    expect(withIt.additions.map(({ toner, grams }) => [toner, grams])).toEqual(
      without.additions.map(({ toner, grams }) => [toner, grams]),
    );
    // Rows of zeros leave the last digits of the refinement, and nothing that a scale shows.
    withIt.additions.forEach(({ gramsUnrounded }, i) => {
      expect(gramsUnrounded).toBeCloseTo(without.additions[i].gramsUnrounded, 10);
    });
    expect(withIt.weightedDeltaE00.after).toBeCloseTo(without.weightedDeltaE00.after, 12);
  });

  it("is reported, with any difference allowed", () => {
    const { predictions } = correct(watched);
    const [first] = predictions.filter(({ target: name }) => name === far.name);
    expect(first.deltaE00After).toBeGreaterThan(1);
    expect(first.deltaE00Allowed).toBe(Number.POSITIVE_INFINITY);
  });

  it("does not hinder that it is good enough, nor a certificate", () => {
    const done = correct({ ...watched, targets: [far, { ...target, readings: example.card.readings }] });
    expect(done.status).toBe("good-enough");
    const answer = correct(watched);
    expect(verifyCertificate(watched, answer, certify(watched, answer)).isValid).toBe(true);
  });

  it("as an edge lets blends count all the same", () => {
    const blend = { ...target, role: "blend" as const };
    const answer = correct({ ...watched, targets: [far, blend], objective: "minimax" });
    expect(answer.status).toBe("corrected");
    expect(answer.weightedDeltaE00.after).toBeLessThan(answer.weightedDeltaE00.before);
  });
});
