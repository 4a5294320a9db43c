import { describe, expect, it } from "vitest";
import { verifyCertificate } from "../../../src/certificate/checker/verifyCertificate.js";
import { certify } from "../../../src/certificate/prover/certify.js";
import type { Certificate } from "../../../src/certificate/records/certificate.js";
import { checksum } from "../../../src/core/checksum.js";
import { checkJob } from "../../../src/problem/job.js";
import { prepareProblem } from "../../../src/problem/problem.js";
import type { OneCardJob } from "../../fixtures/horsebox.js";
import { closestMix, smallProblem } from "../smallProblems.js";

/** A certificate of the additions that a solver without a limit on pours finds, and how it is judged when changed. */
function judged(seed: number, change: (job: OneCardJob) => OneCardJob = (job) => job) {
  const job = change(smallProblem(seed).job);
  const { problem } = prepareProblem(checkJob(job));
  const { additions } = closestMix(problem);
  const poured = problem.model.set.toners
    .map(({ id }, j) => ({ toner: id, grams: additions[j] }))
    .filter(({ grams }) => grams > 0);
  const certificate = certify(job, { additions: poured });
  /** With a checksum that fits. */
  const sealed = (change: Partial<Certificate>, of = poured) => {
    const { checksum: _, ...rest } = { ...certificate, ...change };
    const judgement = verifyCertificate(job, { additions: of }, { ...rest, checksum: checksum(rest) });
    expect(judgement.isValid).toBe(judgement.reason === undefined);
    return judgement.reason;
  };
  return { job, problem, certificate, poured, sealed };
}

const out = judged(12);
const near = judged(2);

describe("the checker of a certificate", () => {
  it("accepts it as it was made, for a match and for what is out of reach", () => {
    for (const { job, poured, certificate } of [out, near])
      expect(verifyCertificate(job, { additions: poured }, certificate)).toEqual({ isValid: true });
    expect(out.certificate.verdict).toBe("proved-out-of-reach");
    expect(near.certificate.verdict).toBe("matched");
  });

  it("says that it is malformed, of another version, or that something was changed", () => {
    const { job, poured, certificate } = out;
    expect(verifyCertificate(job, { additions: poured }, null as unknown as Certificate)).toEqual({
      isValid: false,
      reason: "the certificate is malformed",
    });
    const torn = { ...certificate, checksum: "" };
    expect(verifyCertificate(job, { additions: poured }, torn).reason).toBe(
      "the checksum is another: something was changed",
    );
    expect(out.sealed({ version: 2 as 1 })).toBe("it is no certificate of version 1");
    expect(out.sealed({ proofs: null as unknown as Certificate["proofs"] })).toBe(
      "the certificate is malformed",
    );
  });

  it("says of readings that carry no answer that they carry no proof", () => {
    const { job, poured, certificate } = out;
    const dark = job.card.readings.map((reading) => ({
      ...reading,
      reflectance: Array.from(reading.reflectance, () => 0),
    }));
    expect(
      verifyCertificate({ ...job, card: { readings: dark } }, { additions: poured }, certificate),
    ).toEqual({
      isValid: false,
      reason: "the readings and the card of the job carry no proof",
    });
  });

  it("calls only malformed certificates malformed, and passes on other errors", () => {
    const { job, poured, certificate } = out;
    const failing = Object.defineProperty({ ...certificate }, "proofs", {
      enumerable: true,
      get: () => {
        throw new RangeError("the disk is gone");
      },
    });
    expect(() => verifyCertificate(job, { additions: poured }, failing)).toThrow(RangeError);
  });

  it("says which proof is wrong", () => {
    const [first, ...others] = out.certificate.proofs;
    const reason = "the bound does not lie between 0 and the level";
    expect(out.sealed({ proofs: [{ ...first, bound: 2 * first.level }, ...others] })).toBe(
      `proof 1: ${reason}`,
    );
    expect(others.length).toBe(1);
    expect(out.sealed({ proofs: [first, { ...others[0], bound: -1 }] })).toBe(`proof 2: ${reason}`);
  });

  it("takes no additions that stock and room do not allow", () => {
    const wrong = "the additions are none that the job allows";
    const [first, ...others] = out.poured;
    expect(out.sealed({}, [...others, { toner: "chalk", grams: 1 }])).toBe(wrong);
    expect(out.sealed({}, [{ ...first, grams: -1 }, ...others])).toBe(wrong);
    expect(out.sealed({}, [{ ...first, grams: Number.NaN }, ...others])).toBe(wrong);
    const { room, stock } = out.problem.bench;
    const ids = out.problem.model.set.toners.map(({ id }) => id);
    expect(out.sealed({}, [{ ...first, grams: room + 1e-3 }])).toBe(wrong);
    const short = ids.findIndex((_, j) => stock[j] < room / 2);
    expect(short).toBeGreaterThanOrEqual(0);
    expect(out.sealed({}, [{ toner: ids[short], grams: stock[short] + 1e-3 }])).toBe(wrong);
    const half = { toner: ids[short], grams: 0.6 * stock[short] };
    expect(out.sealed({}, [half, half])).toBe(wrong);
    // Others that the job allows reach something else.
    expect(out.sealed({}, [{ ...first, grams: first.grams / 2 }])).toBe(
      "weightedDeltaE00.reached is not what the additions reach",
    );
  });

  it.each(["weightedDeltaE00", "worstOfAllowed"] as const)("takes no other %s than follows", (name) => {
    const bound = out.certificate[name];
    const changed = (change: Partial<typeof bound>) => out.sealed({ [name]: { ...bound, ...change } });
    for (const by of [1e-5, -1e-5]) {
      expect(changed({ reached: bound.reached + by })).toBe(
        `${name}.reached is not what the additions reach`,
      );
      expect(changed({ gap: bound.gap + by })).toBe(`${name}.gap is not the difference`);
    }
    expect(changed({ atLeast: bound.atLeast * (1 + 1e-6) })).toBe(`${name}.atLeast is not proved`);
    expect(changed({ atLeast: -1e-9 })).toBe(`${name}.atLeast is not proved`);
    expect(changed({ atLeast: Number.NaN })).toBe(`${name}.atLeast is not proved`);
    // Less than was proved may be said of it, with the gap that belongs to that; so long as the verdict stays true.
    const lower = 0.999999 * bound.atLeast;
    expect(changed({ atLeast: lower, gap: bound.reached - lower })).toBeUndefined();
  });

  it("takes no other verdict and no other method than follows", () => {
    expect(out.sealed({ verdict: "matched" })).toBe(
      "the verdict is matched where proved-out-of-reach follows",
    );
    expect(near.sealed({ verdict: "not-proved" })).toBe("the verdict is not-proved where matched follows");
    expect(out.sealed({ method: "none" })).toBe("the method is not that of the proofs");
    const { worstOfAllowed: worst, weightedDeltaE00: weighted } = out.certificate;
    const nothing = {
      proofs: [],
      worstOfAllowed: { ...worst, atLeast: 0, gap: worst.reached },
      weightedDeltaE00: { ...weighted, atLeast: 0, gap: weighted.reached },
    };
    expect(out.sealed({ ...nothing, method: "none", verdict: "not-proved" })).toBeUndefined();
    expect(out.sealed({ ...nothing, method: "none" })).toBe(
      "the verdict is proved-out-of-reach where not-proved follows",
    );
    expect(out.sealed({ ...nothing, verdict: "not-proved" })).toBe("the method is not that of the proofs");
  });

  // With an edge and a blend the aims count differently in the two measures.
  const both = judged(12, (job) => ({
    ...job,
    targets: [...job.targets, { ...job.targets[0], name: "other", role: "blend", weight: 0.5 }],
  }));

  it.each([out, both])("infers from a proof of one measure only what follows for the other (%#)", (one) => {
    const [worst] = one.certificate.proofs;
    expect(worst.measure).toBe("worst");
    const { aims } = one.problem.goal;
    // ΔE00 ≥ bound·allowed of some aim: the weighted measure is at least that of the cheapest.
    const follows = worst.bound * Math.min(...aims.map(({ weight, allowed }) => Math.sqrt(weight) * allowed));
    const { reached } = one.certificate.weightedDeltaE00;
    const { reached: farthest } = one.certificate.worstOfAllowed;
    const claimed = (atLeast: number) =>
      one.sealed({
        proofs: [worst],
        worstOfAllowed: { atLeast: worst.bound, reached: farthest, gap: farthest - worst.bound },
        weightedDeltaE00: { atLeast, reached, gap: reached - atLeast },
      });
    expect(claimed(follows)).toBeUndefined();
    expect(claimed(follows * (1 + 1e-6))).toBe("weightedDeltaE00.atLeast is not proved");

    const [, weighted] = one.certificate.proofs;
    const all = Math.hypot(...aims.map(({ weight, allowed }) => Math.sqrt(weight) * allowed));
    const verdictOf = (atLeast: number) => (atLeast > 1 ? "proved-out-of-reach" : "not-proved");
    const other = (atLeast: number) =>
      one.sealed({
        proofs: [weighted],
        verdict: verdictOf(atLeast),
        worstOfAllowed: { atLeast, reached: farthest, gap: farthest - atLeast },
        weightedDeltaE00: { atLeast: weighted.bound, reached, gap: reached - weighted.bound },
      });
    expect(other(weighted.bound / all)).toBeUndefined();
    expect(other((weighted.bound / all) * (1 + 1e-6))).toBe("worstOfAllowed.atLeast is not proved");
  });
});
