import Ajv from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import certificateSchema from "../../docs/schemas/certificate.json";
import { verifyCertificate } from "../../src/certificate/checker/verifyCertificate.js";
import { certify } from "../../src/certificate/prover/certify.js";
import type { Certified } from "../../src/certificate/records/certified.js";
import { correct } from "../../src/correction/correct.js";
import type { Job } from "../../src/problem/job.js";
import { horseboxJob, horseboxToners } from "../fixtures/horsebox.js";
import { refusal } from "../support/refusal.js";
import { leastMeasures } from "./leastMeasures.js";
import { randomJob } from "./randomJobs.js";

const seeds = Array.from({ length: 40 }, (_, seed) => seed);
const toners = horseboxToners();
const solved = seeds.map((seed) => {
  const made = randomJob(toners, seed);
  const correction = correct(made.job, { alternatives: false, wayOut: false });
  return { ...made, seed, correction, certificate: certify(made.job, correction) };
});

describe("certificates of random jobs", () => {
  it("are met by no additions that stock and room allow", () => {
    for (const { job, seed, certificate } of solved) {
      const { weightedDeltaE00, worstOfAllowed } = certificate;
      const least = leastMeasures(job, { additions: 1500, seed });
      expect(least.weighted, `seed ${seed}`).toBeGreaterThanOrEqual(weightedDeltaE00.atLeast);
      expect(least.worst, `seed ${seed}`).toBeGreaterThanOrEqual(worstOfAllowed.atLeast);
    }
  });

  it("never call a target out of reach that additions make", () => {
    const reachable = solved.filter(({ added }) => added !== undefined);
    expect(reachable.length).toBeGreaterThan(5);
    for (const { seed, certificate } of reachable) {
      const { verdict, weightedDeltaE00 } = certificate;
      expect(verdict, `seed ${seed}`).not.toBe("proved-out-of-reach");
      expect(weightedDeltaE00.atLeast, `seed ${seed}`).toBeLessThanOrEqual(1e-6);
    }
  });

  it("prove most of what is out of reach, and say how far they came with the rest", () => {
    const out = solved.filter(({ correction }) => correction.status === "out-of-reach");
    const proved = out.filter(({ certificate }) => certificate.verdict === "proved-out-of-reach");
    expect(out.length).toBeGreaterThan(10);
    expect(proved.length).toBeGreaterThanOrEqual(0.9 * out.length);
    for (const { certificate } of proved) expect(certificate.binding.length).toBeGreaterThan(0);
    for (const { correction, certificate } of solved) {
      const { verdict, weightedDeltaE00, worstOfAllowed } = certificate;
      expect(verdict === "undetermined").toBe(correction.stopReason === "readings-censored");
      expect(verdict === "matched").toBe(
        correction.status === "corrected" || correction.status === "good-enough",
      );
      expect(worstOfAllowed.atLeast > 1).toBe(verdict === "proved-out-of-reach");
      expect(weightedDeltaE00.atLeast).toBeLessThanOrEqual(weightedDeltaE00.reached);
      expect(weightedDeltaE00.reached).toBeCloseTo(correction.weightedDeltaE00.after, 9);
    }
  });

  it("are accepted by the checker", () => {
    for (const { job, seed, correction, certificate } of solved) {
      expect({ seed, ...verifyCertificate(job, correction, certificate) }).toEqual({ seed, isValid: true });
    }
  });

  it("of one job are refused for another", () => {
    const proved = solved.filter(({ certificate }) => certificate.proofs.length > 0).slice(0, 6);
    for (const [i, { correction, certificate }] of proved.entries()) {
      const other = proved[(i + 1) % proved.length];
      expect(verifyCertificate(other.job, correction, certificate).isValid).toBe(false);
      expect(verifyCertificate(other.job, other.correction, certificate).isValid).toBe(false);
    }
  });
});

describe("a certificate", () => {
  const job = horseboxJob();
  const correction = correct(job, { alternatives: false });

  it("is a record that fits its schema and survives a file", () => {
    const fits = new Ajv({ strict: true, allowUnionTypes: true }).compile(certificateSchema);
    for (const { job, correction, certificate } of solved.slice(0, 12)) {
      const copy = JSON.parse(JSON.stringify(certificate));
      expect(fits(copy), JSON.stringify(fits.errors)).toBe(true);
      expect(verifyCertificate(job, correction, copy)).toEqual({ isValid: true });
    }
  });

  it("proves nothing where the readings carry no answer, and says so", () => {
    const dark = job.card.readings.map((reading) => ({
      ...reading,
      reflectance: Array.from(reading.reflectance, () => 0.0001),
    }));
    const unreadable: Job = { ...job, card: { readings: dark } };
    const answer = correct(unreadable);
    expect(answer.stopReason).toBe("readings-censored");
    const certificate = certify(unreadable, answer);
    expect(certificate).toMatchObject({ verdict: "undetermined", method: "none", proofs: [], binding: [] });
    expect(certificate.weightedDeltaE00.atLeast).toBe(0);
    expect(certificate.weightedDeltaE00.reached).toBeCloseTo(answer.weightedDeltaE00.after, 9);
    expect(verifyCertificate(unreadable, answer, certificate)).toEqual({ isValid: true });
  });

  it("can be had of additions that are typed, which need not be the best", () => {
    const [first] = correction.additions;
    const typed = { additions: [{ toner: first.toner, grams: first.grams / 2 }] };
    const certificate = certify(job, typed);
    expect(certificate.weightedDeltaE00.reached).toBeGreaterThan(correction.weightedDeltaE00.after);
    expect(verifyCertificate(job, typed, certificate)).toEqual({ isValid: true });
  });

  it("is refused to additions that the job does not allow, with the place", () => {
    const { toner } = correction.additions[0];
    const scarce: Job = { ...job, limits: { ...job.limits, stockGrams: { [toner]: 1 } } };
    const small: Job = { ...job, limits: { ...job.limits, potMaxGrams: 1 } };
    const one = (addition: object) => ({ additions: [addition] }) as unknown as Certified;
    for (const [of, additions, code, path] of [
      [job, one({ toner: "chalk", grams: 1 }), "unknown-toner", "correction.additions[0].toner"],
      [job, one({ toner }), "missing", "correction.additions[0].grams"],
      [job, one({ toner, grams: -1 }), "out-of-range", "correction.additions[0].grams"],
      [job, one({ toner, grams: Number.NaN }), "not-finite", "correction.additions[0].grams"],
      [job, {} as Certified, "missing", "correction.additions"],
      [scarce, one({ toner, grams: 2 }), "out-of-range", "correction.additions[0].grams"],
      [small, one({ toner, grams: 2 }), "out-of-range", "correction.additions"],
    ] as const) {
      expect(refusal(() => certify(of, additions))).toEqual({ code, path });
    }
    // Half of the stock twice, and a hair more.
    const halves = { additions: [0.5, 0.6].map((grams) => ({ toner, grams })) };
    expect(refusal(() => certify(scarce, halves)).path).toBe("correction.additions[1].grams");
  });

  it("is the same for several targets, lights and a blend, and takes the strictest", () => {
    const darker = job.targets.map((target, i) => ({
      ...target,
      role: i === 0 ? ("edge" as const) : ("blend" as const),
      readings: target.readings.map((reading) => ({
        ...reading,
        reflectance: Array.from(reading.reflectance, (r) => Math.min(0.95, r * (i === 0 ? 1.7 : 1.5))),
      })),
    }));
    const harder: Job = { ...job, targets: darker };
    const answer = correct(harder);
    const certificate = certify(harder, answer);
    expect(certificate.verdict).toBe("proved-out-of-reach");
    expect(verifyCertificate(harder, answer, certificate)).toEqual({ isValid: true });
    expect(answer.wayOut?.newPot).not.toBeNull();
  });
});
