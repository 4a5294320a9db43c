import { certify } from "../certificate/prover/certify.js";
import { SPRAYING_CAUTION } from "../core/caution.js";
import { correct } from "../correction/correct.js";
import type { Correction } from "../correction/correction.js";
import { readJob } from "../formats/jobFile.js";
import { adviseNextStep } from "../planning/nextStep/adviseNextStep.js";
import type { AdvisedCorrection } from "../planning/nextStep/nextStep.js";
import type { Job } from "../problem/job.js";
import { correctionDetails } from "../report/correction/correctionDetails.js";
import { correctionHtml } from "../report/correction/correctionHtml.js";
import { correctionText } from "../report/correction/correctionText.js";
import { tonerNames } from "../report/words/tonerName.js";
import { correctOnRecord } from "./correctOnRecord.js";
import { displayOf } from "./displayOf.js";
import { fromFile, textBeside, tonersBeside } from "./files.js";
import { once } from "./once.js";
import type { Terminal } from "./terminal.js";
import { type Answer, type Asked, detailOf } from "./verb.js";

/** Corrects the pot of a job, or of a record. */
export function answerCorrect(terminal: Terminal, file: string, { unit, details }: Asked): Answer {
  const path = detailOf(details, "record");
  const { job, correction, save } =
    path === undefined ? correctFile(terminal, file) : correctOnRecord(terminal, file, path);
  const nextStep = adviseNextStep(job, correction);
  // The record does without the certificate, which takes long.
  const told = once(() => ({
    certificate: certify(job, correction),
    nextStep,
    display: displayOf(unit, job.limits),
  }));
  return {
    record: { ...correction, nextStep, caution: SPRAYING_CAUTION } satisfies AdvisedCorrection,
    text: () => correctionText(correction, tonerNames(job.toners), told()),
    more: () => correctionDetails(correction, tonerNames(job.toners), told()),
    files: {
      report: () => correctionHtml(job, correction, told()),
      certificate: () => `${JSON.stringify(told().certificate)}\n`,
    },
    ...(save && { save }),
  };
}

function correctFile(
  terminal: Terminal,
  file: string,
): { readonly job: Job; readonly correction: Correction; readonly save?: () => void } {
  const job = fromFile(terminal, file, (text) =>
    readJob(text, tonersBeside(terminal, file), textBeside(terminal, file)),
  );
  return { job, correction: correct(job, { forecast: true }) };
}
