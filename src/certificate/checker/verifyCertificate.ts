import { ciede2000 } from "../../colorimetry/ciede2000.js";
import { checksum } from "../../core/checksum.js";
import { sum } from "../../core/sum.js";
import { createEvaluation, evaluate } from "../../forward/evaluate.js";
import { checkJob, type Job } from "../../problem/job.js";
import { type Problem, prepareProblem } from "../../problem/problem.js";
import { asSprayed } from "../../problem/spray/asSprayed.js";
import type { Certificate } from "../records/certificate.js";
import type { Certified } from "../records/certified.js";
import type { Proof } from "../records/proof.js";
import { checkProof, type Fault } from "./checkProof.js";

/** Whether a certificate holds for a job; `reason` says what was found wrong first. */
export interface Verification {
  readonly isValid: boolean;
  readonly reason?: string;
}

/** Largest difference between a stated number and the one computed here, relative to 1 or to its size. */
const CLOSE = 1e-7;

/**
 * Checks the certificate of a correction against its job, with arithmetic of its own and none of the code that made it:
 * shared are only the forward model, tied to the card and sprayed as is asked for, CIEDE2000 and the reading of the job. Every
 * proof is followed step by step; what is said to be reached is computed from the additions; bounds and verdict must follow from the proofs. Values err to the
 * safe side by more than rounding (1e−13 of the terms of a row, 1e−11 of a ratio). Throws as `correct` does for a job that
 * cannot be used; whatever is wrong with the certificate is in `reason`.
 */
export function verifyCertificate(
  job: Job,
  { additions }: Certified,
  certificate: Certificate,
): Verification {
  const prepared = prepareProblem(checkJob(job));
  const { carriesProof } = prepared;
  const problem = asSprayed(prepared);
  try {
    const reason = certificateFault(problem, { additions, carriesProof }, certificate);
    return reason === undefined ? { isValid: true } : { isValid: false, reason };
  } catch (error) {
    // A certificate from a file may lack whole records.
    if (!(error instanceof TypeError)) throw error;
    return { isValid: false, reason: "the certificate is malformed" };
  }
}

function certificateFault(
  problem: Problem,
  { additions, carriesProof }: Certified & { readonly carriesProof: boolean },
  certificate: Certificate,
): Fault {
  if (certificate.format !== "masstone/certificate" || certificate.version !== 1)
    return "it is no certificate of version 1";
  const { checksum: written, ...rest } = certificate;
  if (written !== checksum(rest)) return "the checksum is another: something was changed";
  const { weightedDeltaE00, worstOfAllowed, verdict, method, proofs } = certificate;
  if (!carriesProof && proofs.length > 0) return "the readings and the card of the job carry no proof";
  for (const [i, proof] of proofs.entries()) {
    const fault = checkProof(problem, proof);
    if (fault !== undefined) return `proof ${i + 1}: ${fault}`;
  }
  const reached = reachedBy(problem, additions);
  if (!reached) return "the additions are none that the job allows";
  const isClose = (a: number, b: number) => Math.abs(a - b) <= CLOSE * Math.max(1, Math.abs(b));
  const proved = provedBy(problem, proofs);
  for (const [name, bound, measure] of [
    ["weightedDeltaE00", weightedDeltaE00, "weighted"],
    ["worstOfAllowed", worstOfAllowed, "worst"],
  ] as const) {
    if (!isClose(bound.reached, reached[measure])) return `${name}.reached is not what the additions reach`;
    if (!(bound.atLeast >= 0 && bound.atLeast <= proved[measure] * (1 + 1e-9)))
      return `${name}.atLeast is not proved`;
    if (!isClose(bound.gap, Math.max(0, bound.reached - bound.atLeast)))
      return `${name}.gap is not the difference`;
  }
  const ofReadable =
    reached.worst <= 1 ? "matched" : worstOfAllowed.atLeast > 1 ? "proved-out-of-reach" : "not-proved";
  const due = carriesProof ? ofReadable : "undetermined";
  if (verdict !== due) return `the verdict is ${verdict} where ${due} follows`;
  if (method !== (proofs.length > 0 ? "outer-linearisation" : "none"))
    return "the method is not that of the proofs";
  return undefined;
}

interface Both {
  readonly weighted: number;
  readonly worst: number;
}

/** Both measures of the additions by the exact model; undefined when stock or room do not allow the additions. */
function reachedBy({ model, bench, goal }: Problem, additions: Certified["additions"]): Both | undefined {
  const ids = model.set.toners.map(({ id }) => id);
  const added = new Float64Array(ids.length);
  for (const { toner, grams } of additions) {
    const j = ids.indexOf(toner);
    if (j < 0 || !(grams >= 0)) return undefined;
    added[j] += grams;
    if (!(added[j] <= bench.stock[j] + SLACK)) return undefined;
  }
  if (!(sum(added) <= bench.room + SLACK)) return undefined;
  const at = createEvaluation(model);
  evaluate(
    model,
    bench.pot.map((grams, j) => grams + added[j]),
    at,
  );
  let squares = 0;
  let worst = 0;
  for (const { lab, place, weight, allowed } of goal.aims) {
    const difference = ciede2000(lab, [at.lab[place], at.lab[place + 1], at.lab[place + 2]]);
    squares += weight * difference * difference;
    worst = Math.max(worst, difference / allowed);
  }
  return { weighted: Math.sqrt(squares), worst };
}

/** Grams that whole steps of a scale may be off in binary fractions. */
const SLACK = 1e-6;

/** What proofs of either measure say of both: from t = worst, ΔE00 ≥ t·allowed somewhere; from v, v² ≤ Σ w·(t·allowed)². */
function provedBy({ goal: { aims } }: Problem, proofs: readonly Proof[]): Both {
  let weighted = 0;
  let worst = 0;
  for (const { measure, bound } of proofs) {
    const scaled = aims.map((aim) => (aim.weight > 0 ? Math.sqrt(aim.weight) * aim.allowed : 0));
    if (measure === "weighted") {
      weighted = Math.max(weighted, bound);
      worst = Math.max(worst, bound / Math.sqrt(scaled.reduce((sum, value) => sum + value * value, 0)));
    } else {
      worst = Math.max(worst, bound);
      weighted = Math.max(weighted, bound * Math.min(...scaled));
    }
  }
  return { weighted, worst };
}
