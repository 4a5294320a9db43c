import { describe, expect, it } from "vitest";
import { verifyCertificate } from "../../src/certificate/checker/verifyCertificate.js";
import { certify } from "../../src/certificate/prover/certify.js";
import type { Certificate } from "../../src/certificate/records/certificate.js";
import { checksum } from "../../src/core/checksum.js";
import { correct } from "../../src/correction/correct.js";
import type { Correction } from "../../src/correction/correction.js";
import { horseboxToners } from "../fixtures/horsebox.js";
import { randomJob } from "./randomJobs.js";

type Path = readonly (string | number)[];

/** Every place of a record that holds a number. */
function numbersIn(value: unknown, path: Path = []): readonly Path[] {
  if (typeof value === "number") return [path];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => numbersIn(inner, [...path, key]));
}

/** A copy with one number changed. */
function changed<T>(value: T, path: Path, change: (number: number) => number): T {
  const copy = structuredClone(value);
  let place = copy as Record<string | number, unknown>;
  for (const key of path.slice(0, -1)) place = place[key] as Record<string | number, unknown>;
  const last = path[path.length - 1];
  place[last] = change(place[last] as number);
  return copy;
}

const toners = horseboxToners();
const cases = Array.from({ length: 60 }, (_, seed) => randomJob(toners, seed))
  .map(({ job }) => {
    const correction = correct(job, { alternatives: false, wayOut: false });
    return { job, correction, certificate: certify(job, correction) };
  })
  .filter(({ certificate }) => certificate.verdict === "proved-out-of-reach")
  .filter(({ certificate }) => JSON.stringify(certificate).length < 12_000)
  .slice(0, 3);

type Job = (typeof cases)[number]["job"];

const isAccepted = (job: Job, correction: Correction, certificate: Certificate) =>
  verifyCertificate(job, correction, certificate).isValid;

/** With a checksum that fits: only the proof itself can then give it away. */
function isAcceptedSealed(job: Job, correction: Correction, certificate: Certificate): boolean {
  const { checksum: _, ...rest } = certificate;
  return isAccepted(job, correction, { ...rest, checksum: checksum(rest) });
}

describe("a certificate that was tampered with", () => {
  it("is there to be tampered with", () => {
    expect(cases.length).toBeGreaterThan(1);
    for (const { job, correction, certificate } of cases)
      expect(isAccepted(job, correction, certificate)).toBe(true);
  });

  it("is refused whichever of its numbers is changed, and by how little", () => {
    for (const { job, correction, certificate } of cases) {
      for (const path of numbersIn(certificate)) {
        const spoilt = changed(certificate, path, (x) => x * (1 + 1e-9) + 1e-15);
        expect(isAccepted(job, correction, spoilt), path.join(".")).toBe(false);
      }
    }
  });

  it("is refused, even with a checksum that fits, when any number that it claims is made to claim more", () => {
    for (const { job, correction, certificate } of cases) {
      const claims = numbersIn(certificate).filter((path) => {
        const key = path[path.length - 1];
        return ["atLeast", "reached", "gap", "bound"].includes(String(key));
      });
      expect(claims.length).toBeGreaterThan(6);
      for (const path of claims) {
        const spoilt = changed(certificate, path, (x) => x * 1.001 + 0.001);
        expect(isAcceptedSealed(job, correction, spoilt), path.join(".")).toBe(false);
      }
      for (const verdict of ["matched", "not-proved", "undetermined"] as const) {
        expect(isAcceptedSealed(job, correction, { ...certificate, verdict })).toBe(false);
      }
    }
  });

  it("is refused, even with a checksum that fits, when a step or an end is made to say what does not follow", () => {
    for (const { job, correction, certificate } of cases) {
      const paths = numbersIn(certificate.proofs).filter((path) => {
        const steps = path.includes("rounds") || path.includes("end");
        return steps && !path.includes("band");
      });
      const every = Math.ceil(paths.length / 40);
      for (const path of paths.filter((_, i) => i % every === 0)) {
        const spoilt = changed(certificate, ["proofs", ...path], (x) => -x - 1);
        expect(isAcceptedSealed(job, correction, spoilt), path.join(".")).toBe(false);
      }
    }
  });

  it("is refused when a proof, a step or a box is missing, and survives a file", () => {
    for (const { job, correction, certificate } of cases) {
      expect(isAcceptedSealed(job, correction, { ...certificate, proofs: [] })).toBe(false);
      const proofs = certificate.proofs.map((proof) => ({ ...proof, boxes: proof.boxes.map(() => null) }));
      expect(isAcceptedSealed(job, correction, { ...certificate, proofs })).toBe(false);
      const ends = certificate.proofs.map((proof) => ({ ...proof, root: { rounds: [], end: [] } }));
      expect(isAcceptedSealed(job, correction, { ...certificate, proofs: ends })).toBe(false);
      const other = { ...certificate, format: "masstone/proof" } as unknown as Certificate;
      expect(isAcceptedSealed(job, correction, other)).toBe(false);
      expect(isAccepted(job, correction, JSON.parse(JSON.stringify(certificate)))).toBe(true);
    }
  });
});
