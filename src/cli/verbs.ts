import { certify } from "../certificate/prover/certify.js";
import { characterise } from "../characterisation/characterise.js";
import { correct } from "../correction/correct.js";
import type { Correction } from "../correction/correction.js";
import type { Job } from "../correction/job.js";
import { readJob, readMix, readMixOnCard } from "../formats/jobFile.js";
import { readPlan } from "../formats/readPlan.js";
import { readSamples } from "../formats/samplesFile.js";
import { writeToners } from "../formats/tonersFile.js";
import { planHoldBack } from "../planning/holdBack/planHoldBack.js";
import { adviseNextStep } from "../planning/nextStep/adviseNextStep.js";
import type { AdvisedCorrection } from "../planning/nextStep/nextStep.js";
import { predict } from "../prediction/predict.js";
import { tonerDirections } from "../prediction/tonerDirections.js";
import { characterisationHtml } from "../report/characterisationHtml.js";
import { characterisationText } from "../report/characterisationText.js";
import { correctionHtml } from "../report/correctionHtml.js";
import { correctionText } from "../report/correctionText.js";
import { directionsText } from "../report/directionsText.js";
import { holdBackHtml } from "../report/holdBackHtml.js";
import { holdBackText } from "../report/holdBackText.js";
import { predictionText } from "../report/predictionText.js";
import { tonerNames } from "../report/tonerName.js";
import { verificationText } from "../report/verificationText.js";
import { verify } from "../verification/verify.js";
import { answerLearn } from "./answerLearn.js";
import { answerRecord } from "./answerRecord.js";
import { correctOnRecord } from "./correctOnRecord.js";
import { displayOf } from "./displayOf.js";
import { fromFile, textBeside, tonersBeside } from "./files.js";
import type { Screen } from "./screen.js";
import { showProgress } from "./showProgress.js";
import type { Terminal } from "./terminal.js";
import { type Answer, type Asked, detailOf, type Verb } from "./verb.js";

export const VERBS: Readonly<Record<string, Verb>> = Object.freeze({
  correct: {
    summary: "the grams of each toner to add, from a job with a card and targets",
    file: "a masstone/job in JSON: toners, pot, the card sprayed from it, targets, viewing, limits",
    format: "masstone/correction",
    outputs: {
      report: "a sheet for the bench, in one HTML file",
      certificate: "what is proved of the answer, as a masstone/certificate in JSON",
    },
    details: {
      record:
        "RECORD: pot and card are those of this record (made from FILE where there is none); the answer is added to it",
    },
    hasUnits: true,
    example: "correct examples/horsebox/job.json --report sheet.html",
    answer(terminal: Terminal, file: string, { unit, details }: Asked): Answer {
      const record = detailOf(details, "record");
      const { job, correction, save } =
        record === undefined ? correctFile(terminal, file) : correctOnRecord(terminal, file, record);
      const told = {
        certificate: certify(job, correction),
        nextStep: adviseNextStep(job, correction),
        display: displayOf(unit, job.limits),
      };
      return {
        record: { ...correction, nextStep: told.nextStep } satisfies AdvisedCorrection,
        text: correctionText(correction, tonerNames(job.toners), told),
        files: {
          report: () => correctionHtml(job, correction, told),
          certificate: () => `${JSON.stringify(told.certificate)}\n`,
        },
        ...(save && { save }),
      };
    },
  },
  record: {
    summary: "what was poured and which cards were read, line by line; and what is next",
    file: "a masstone/record, begun by --job where there is none yet",
    format: "masstone/job-state",
    details: {
      job: "JOB: begin with this masstone/job; its pot and card are noted as the first pours and the first card",
      can: "TONER=CAN: which can the pours of a toner come from",
      pour: "TONER=GRAMS: poured, as the scale showed it; or 0.44oz, or 12drops where the job says what a drop weighs",
      "pour-off": "GRAMS: taken out of the pot; or 1.5oz",
      card: "READINGS: a card sprayed and read, from a file of readings; FILE#NAME where it has several",
      withdraw: "ENTRY: a pour or card noted wrongly counts no more",
      note: "TEXT: anything to remember",
    },
    hasUnits: true,
    example: "record horsebox.record --job examples/horsebox/job.json --pour white=12.5",
    answer: answerRecord,
  },
  learn: {
    summary: "the strength of the cans in use, from the cards of records or jobs, oldest first",
    file: "a masstone/record, or a masstone/job with pot and card",
    takesMany: true,
    format: "masstone/learning",
    outputs: {
      out: "the toners with what was learnt, as a masstone/toners file",
      report: "what each card taught and what is doubted, in one HTML file",
    },
    details: { toners: "TONERS: start from this masstone/toners, not from the toners of the first FILE" },
    hasUnits: true,
    example: "learn examples/horsebox/job.record --out toners.json --report cans.html",
    answer: answerLearn,
  },
  predict: {
    summary: "the reflectance and colour of the mix in a job's pot",
    file: "a masstone/job in JSON, of which toners, pot and viewing are used",
    format: "masstone/prediction",
    example: "predict examples/horsebox/job.json",
    answer(terminal: Terminal, file: string): Answer {
      const mix = fromFile(terminal, file, (text) => readMix(text, tonersBeside(terminal, file)));
      const prediction = predict(mix);
      return { record: prediction, text: predictionText(prediction, tonerNames(mix.toners)) };
    },
  },
  directions: {
    summary: "what a gram and a per cent of each toner do now, from the pot and card of a job",
    file: "a masstone/job in JSON, of which toners, pot, card (if there is one) and viewing are used",
    format: "masstone/directions",
    example: "directions examples/horsebox/job.json",
    answer(terminal: Terminal, file: string): Answer {
      const mix = fromFile(terminal, file, (text) =>
        readMixOnCard(text, tonersBeside(terminal, file), textBeside(terminal, file)),
      );
      const directions = tonerDirections(mix);
      return { record: directions, text: directionsText(directions, tonerNames(mix.toners)) };
    },
  },
  "hold-back": {
    summary: "the first pot for faded panels: what to pour now, what to keep back",
    file: "a masstone/plan in JSON: toners, formulas, faded panels, viewing, how much paint is wanted",
    format: "masstone/hold-back",
    outputs: { report: "a sheet for the bench, in one HTML file" },
    hasUnits: true,
    example: "hold-back examples/horsebox/plan.json --report plan.html",
    answer(terminal: Terminal, file: string, { unit }: Asked): Answer {
      const job = fromFile(terminal, file, (text) => readPlan(text, tonersBeside(terminal, file)));
      const plan = planHoldBack(job);
      const display = displayOf(unit, job.limits);
      return {
        record: plan,
        text: holdBackText(plan, tonerNames(job.toners), display),
        files: { report: () => holdBackHtml(job, plan, { display }) },
      };
    },
  },
  characterise: {
    summary: "toners from readings of films of known composition",
    file: "a masstone/samples in JSON: what was mixed, and the readings of it",
    format: "masstone/characterisation",
    outputs: {
      out: "the toners, as a masstone/toners file",
      report: "a report for the browser, in one HTML file",
    },
    example: "characterise examples/ladder/samples.json --out toners.json --report toners.html",
    answer(terminal: Screen, file: string): Answer {
      const { job, leftOut } = fromFile(terminal, file, (text) =>
        readSamples(text, textBeside(terminal, file)),
      );
      const progress = showProgress(terminal);
      const characterisation = characterise(job, progress.show);
      progress.clear();
      const names = tonerNames(characterisation.toners);
      const unused = leftOut.length === 0 ? "" : `\nNot used: ${leftOut.join(", ")}.\n`;
      return {
        record: characterisation,
        text: characterisationText(characterisation, names) + unused,
        files: {
          out: () => writeToners(characterisation.toners),
          report: () => characterisationHtml(characterisation, { names, samples: job.samples }),
        },
      };
    },
  },
  verify: {
    summary: "published figures worked out anew on this machine, and how far off they are",
    format: "masstone/verification",
    example: "verify",
    answer(): Answer {
      const verification = verify();
      return {
        record: verification,
        text: verificationText(verification),
        hasFailed: !verification.passed,
      };
    },
  },
});

function correctFile(
  terminal: Terminal,
  file: string,
): { readonly job: Job; readonly correction: Correction; readonly save?: () => void } {
  const job = fromFile(terminal, file, (text) =>
    readJob(text, tonersBeside(terminal, file), textBeside(terminal, file)),
  );
  return { job, correction: correct(job, { forecast: true }) };
}
