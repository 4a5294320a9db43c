import { describe, expect, it } from "vitest";
import type { Certificate } from "../../../src/correction/certificate/certificate.js";
import { verifyCertificate } from "../../../src/correction/checker/verifyCertificate.js";
import { correct } from "../../../src/correction/correct.js";
import type { Correction } from "../../../src/correction/correction.js";
import type { Job } from "../../../src/correction/job.js";
import { horseboxJob, horseboxToners } from "../../fixtures/horsebox.js";
import { leastMeasures } from "./leastMeasures.js";
import { randomJob } from "./randomJobs.js";

const seeds = Array.from({ length: 40 }, (_, seed) => seed);
const toners = horseboxToners();
const solved = seeds.map((seed) => {
  const made = randomJob(toners, seed);
  return { ...made, seed, correction: correct(made.job, { alternatives: false, wayOut: false }) };
});
const certificateOf = ({ certificate }: Correction): Certificate => {
  if (certificate === null) throw new Error("no certificate");
  return certificate;
};

describe("certificates of random jobs", () => {
  it("are met by no additions that stock and room allow", () => {
    for (const { job, seed, correction } of solved) {
      if (correction.certificate === null) continue;
      const { weightedDeltaE00, worstOfAllowed } = certificateOf(correction);
      const least = leastMeasures(job, { additions: 1500, seed });
      expect(least.weighted, `seed ${seed}`).toBeGreaterThanOrEqual(weightedDeltaE00.atLeast);
      expect(least.worst, `seed ${seed}`).toBeGreaterThanOrEqual(worstOfAllowed.atLeast);
    }
  });

  it("never call a target out of reach that additions make", () => {
    const reachable = solved.filter(({ added }) => added !== undefined);
    expect(reachable.length).toBeGreaterThan(5);
    for (const { seed, correction } of reachable) {
      if (correction.certificate === null) continue;
      const { verdict, weightedDeltaE00 } = certificateOf(correction);
      expect(verdict, `seed ${seed}`).not.toBe("proved-out-of-reach");
      expect(weightedDeltaE00.atLeast, `seed ${seed}`).toBeLessThanOrEqual(1e-6);
    }
  });

  it("prove most of what is out of reach, and say how far they came with the rest", () => {
    const out = solved.filter(({ correction }) => correction.status === "out-of-reach");
    const proved = out.filter(
      ({ correction }) => certificateOf(correction).verdict === "proved-out-of-reach",
    );
    expect(out.length).toBeGreaterThan(10);
    expect(proved.length).toBeGreaterThanOrEqual(0.9 * out.length);
    for (const { correction } of proved) expect(certificateOf(correction).binding.length).toBeGreaterThan(0);
    for (const { correction } of solved) {
      if (correction.certificate === null) continue;
      const { verdict, weightedDeltaE00, worstOfAllowed } = certificateOf(correction);
      expect(verdict === "matched").toBe(
        correction.status === "corrected" || correction.status === "good-enough",
      );
      expect(worstOfAllowed.atLeast > 1).toBe(verdict === "proved-out-of-reach");
      expect(weightedDeltaE00.atLeast).toBeLessThanOrEqual(weightedDeltaE00.reached);
      expect(weightedDeltaE00.reached).toBeCloseTo(correction.weightedDeltaE00.after, 9);
    }
  });

  it("are accepted by the checker", () => {
    for (const { job, seed, correction } of solved) {
      const { isValid, reason } = verifyCertificate(job, correction);
      if (correction.certificate === null) expect(reason, `seed ${seed}`).toBe("there is no certificate");
      else expect({ seed, isValid, reason }).toEqual({ seed, isValid: true, reason: undefined });
    }
  });

  it("of one job are refused for another", () => {
    const proved = solved
      .filter(({ correction }) => (correction.certificate?.proofs.length ?? 0) > 0)
      .slice(0, 6);
    for (const [i, { correction }] of proved.entries()) {
      const other = proved[(i + 1) % proved.length];
      expect(verifyCertificate(other.job, correction).isValid).toBe(false);
    }
  });
});

describe("what a certificate is asked for and when", () => {
  const job = horseboxJob();
  it("is left out when it is not wanted, or the readings carry none", () => {
    expect(correct(job, { certificate: false }).certificate).toBeNull();
    expect(correct(job, { wayOut: false }).wayOut).toBeNull();
    expect(correct(job).wayOut).toBeNull();
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
    const correction = correct(harder);
    expect(certificateOf(correction).verdict).toBe("proved-out-of-reach");
    expect(verifyCertificate(harder, correction)).toEqual({ isValid: true });
    expect(correction.wayOut?.newPot).not.toBeNull();
  });
});
