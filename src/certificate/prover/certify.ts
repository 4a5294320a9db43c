import { checkList, checkNumber, checkRecord, checkText } from "../../core/check.js";
import { checksum } from "../../core/checksum.js";
import { InputError } from "../../core/InputError.js";
import { sum } from "../../core/sum.js";
import { type WorkOptions, workFor } from "../../core/workOptions.js";
import { checkJob, type Job } from "../../problem/job.js";
import { type Problem, prepareProblem } from "../../problem/problem.js";
import { asSprayed } from "../../problem/spray/asSprayed.js";
import { MOST_GRAMS } from "../../toners/pot.js";
import { tonerIndex } from "../../toners/tonerIndex.js";
import type { Certificate } from "../records/certificate.js";
import type { Certified } from "../records/certified.js";
import { type Answer, nothingProved, proveAdditions } from "./proveAdditions.js";

/**
 * What is proved of a correction of a job: a bound that no additions within stock and room get below, whatever the number
 * of pours and the scale, and whether that puts a target out of reach. The colours are those of the model tied to the card,
 * sprayed as `correct` asks for; where the readings carry no answer nothing is proved. Throws InputError as `correct` does for
 * the job, and for additions that it does not allow. What the work allowed does not suffice for is not proved. docs/theory.md
 * has the mathematics; `verifyCertificate` checks the result.
 */
export function certify(job: Job, correction: Certified, options: WorkOptions = {}): Certificate {
  const checked = checkJob(job);
  const prepared = prepareProblem(checked, workFor(options));
  const problem = asSprayed(prepared);
  const answer = checkAdditions(correction, problem);
  const content = prepared.carriesProof
    ? proveAdditions(
        problem,
        answer,
        checked.targets.map(({ name }) => name),
      )
    : nothingProved(problem, answer);
  const isInferred = problem.goal.aims.some(({ drawnAt }) => drawnAt !== null);
  const given = isInferred ? ({ given: "inferred" } as const) : {};
  const certificate = { format: "masstone/certificate", version: 1, ...content, ...given } as const;
  return { ...certificate, checksum: checksum(certificate) };
}

/** Grams that whole steps of a scale may be off in binary fractions. */
const SLACK = 1e-6;

/** The additions in the order of the toner set. */
function checkAdditions(correction: Certified, { model, bench }: Problem): Answer {
  const list = checkList(checkRecord(correction, "correction").additions, "correction.additions");
  const additions = new Float64Array(bench.pot.length);
  const unrounded = new Float64Array(bench.pot.length);
  for (let i = 0; i < list.length; i++) {
    const path = `correction.additions[${i}]`;
    const { toner, grams, gramsUnrounded = grams } = checkRecord(list[i], path);
    const j = tonerIndex(model.set.toners, checkText(toner, `${path}.toner`), `${path}.toner`);
    additions[j] += checkNumber(grams, `${path}.grams`, { min: 0, max: MOST_GRAMS });
    unrounded[j] += checkNumber(gramsUnrounded, `${path}.gramsUnrounded`, { min: 0, max: MOST_GRAMS });
    if (additions[j] > bench.stock[j] + SLACK) {
      throw new InputError("out-of-range", `${path}.grams`, `more than the ${bench.stock[j]} g in stock`);
    }
  }
  const poured = sum(additions);
  if (poured > bench.room + SLACK) {
    const reason = `${poured} g together, where the cup has room for ${bench.room} g`;
    throw new InputError("out-of-range", "correction.additions", reason);
  }
  return { additions, unrounded };
}
