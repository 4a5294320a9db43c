import { certify } from "../certificate/prover/certify.js";
import { SPRAYING_CAUTION } from "../core/caution.js";
import { correct } from "../correction/correct.js";
import type { Correction } from "../correction/correction.js";
import { readJob } from "../formats/jobFile.js";
import { adviseNextStep } from "../planning/nextStep/adviseNextStep.js";
import type { AdvisedCorrection, NextStep } from "../planning/nextStep/nextStep.js";
import type { Job } from "../problem/job.js";
import { type BenchStep, benchStepOf } from "../record/benchStep.js";
import { correctionDetails } from "../report/correction/correctionDetails.js";
import { correctionHtml } from "../report/correction/correctionHtml.js";
import { correctionText } from "../report/correction/correctionText.js";
import { benchStepText } from "../report/record/benchStepText.js";
import { lines } from "../report/words/screenText.js";
import type { StepToTake } from "../report/words/stepToTake.js";
import { tonerNames } from "../report/words/tonerName.js";
import { correctOnRecord } from "./correctOnRecord.js";
import { displayOf } from "./displayOf.js";
import { fromFile, textBeside, tonersBeside } from "./files.js";
import { headOf } from "./headOf.js";
import { type Called, nextCommand, pastedCommand, recordNamedAfter } from "./nextCommand.js";
import { once } from "./once.js";
import type { Terminal } from "./terminal.js";
import { type Answer, type Asked, detailOf } from "./verb.js";

/** Corrects the pot of a job, or of a record. */
export function answerCorrect(terminal: Terminal, file: string, { unit, details }: Asked): Answer {
  const path = detailOf(details, "record");
  const { job, correction, save } =
    path === undefined ? correctFile(terminal, file) : correctOnRecord(terminal, file, path);
  const nextStep = adviseNextStep(job, correction);
  const next = (step: StepToTake) => {
    const record = path ?? recordNamedAfter(terminal, file);
    const begin = path === undefined ? { begin: ["--job", file] } : {};
    const called = { unit: unit ?? "g", program: terminal.program, record, ...begin };
    return goingOn(benchStepOf(step, correction), { file, called });
  };
  // The record does without the certificate, which takes long.
  const told = once(() => ({
    certificate: certify(job, correction),
    nextStep,
    display: displayOf(unit, job.limits),
  }));
  return {
    record: { ...correction, nextStep, caution: SPRAYING_CAUTION } satisfies AdvisedCorrection,
    text: () => correctionText(correction, tonerNames(job.toners), { ...told(), next }),
    more: () => correctionDetails(correction, tonerNames(job.toners), told()),
    files: {
      report: () => correctionHtml(job, correction, { ...told(), head: headOf(terminal, path ?? file) }),
      certificate: () => `${JSON.stringify(told().certificate)}\n`,
    },
    ...(save && { save: () => save(nextStep) }),
  };
}

function correctFile(
  terminal: Terminal,
  file: string,
): { readonly job: Job; readonly correction: Correction; readonly save?: (nextStep: NextStep) => void } {
  const job = fromFile(terminal, file, (text) =>
    readJob(text, tonersBeside(terminal, file), textBeside(terminal, file)),
  );
  return { job, correction: correct(job, { forecast: true }) };
}

/** The next step with the line that notes it; a job in a file is put right there, and has no line when it came by a pipe. */
function goingOn(
  next: BenchStep,
  { file, called }: { readonly file: string; readonly called: Called },
): string {
  if (next.kind === "done") return "";
  const isLook = next.kind === "compare" || (next.kind === "read-card" && next.isSameCard === true);
  const line =
    file === "-"
      ? ""
      : called.begin && isLook
        ? pastedCommand(["correct", file], called)
        : nextCommand(next, called);
  const what = called.begin && isLook ? `put it into ${file} and ask again:` : benchStepText(next);
  return lines(`Next: ${line === "" ? what.replace(/:$/, ".") : what}`, line);
}
