import { characterise } from "../characterisation/characterise.js";
import { correct } from "../correction/correct.js";
import { readJob, readMix, readMixOnCard } from "../formats/jobFile.js";
import { readPlan } from "../formats/readPlan.js";
import { readSamples } from "../formats/samplesFile.js";
import { writeToners } from "../formats/tonersFile.js";
import { adviseNextStep } from "../planning/adviseNextStep.js";
import { planHoldBack } from "../planning/planHoldBack.js";
import { predict } from "../prediction/predict.js";
import { tonerDirections } from "../prediction/tonerDirections.js";
import { characterisationHtml } from "../report/characterisationHtml.js";
import { characterisationText } from "../report/characterisationText.js";
import { correctionHtml } from "../report/correctionHtml.js";
import { correctionText } from "../report/correctionText.js";
import { directionsText } from "../report/directionsText.js";
import { holdBackHtml } from "../report/holdBackHtml.js";
import { holdBackText } from "../report/holdBackText.js";
import type { MassUnit } from "../report/massText.js";
import { predictionText } from "../report/predictionText.js";
import { tonerNames } from "../report/tonerName.js";
import { verificationText } from "../report/verificationText.js";
import { verify } from "../verification/verify.js";
import { fromFile, textBeside, tonersBeside } from "./files.js";
import { showProgress } from "./showProgress.js";
import type { Terminal } from "./terminal.js";

/** What can be written to a file of its own, by the option that asks for it. */
export const OUTPUTS = ["out", "report"] as const;

export type Output = (typeof OUTPUTS)[number];

/** An answer as a record for programs, as text for people, and what else may be asked of it. */
export interface Answer {
  readonly record: object;
  readonly text: string;
  readonly files?: Readonly<Partial<Record<Output, () => string>>>;
  /** The answer is that a check does not hold. */
  readonly hasFailed?: boolean;
}

/** One word of the command line. */
export interface Verb {
  readonly summary: string;
  /** What FILE is; absent for a verb that takes none. */
  readonly file?: string;
  /** Name of the record that --json prints. */
  readonly format: string;
  /** What is written by the options that it has; `files` of the answer has the same keys. */
  readonly outputs?: Readonly<Partial<Record<Output, string>>>;
  /** Arguments that can be tried. */
  readonly example: string;
  /** Whether --unit matters to its text. */
  readonly hasUnits?: boolean;
  readonly answer: (terminal: Terminal, file: string, unit: MassUnit) => Answer;
}

export const VERBS: Readonly<Record<string, Verb>> = Object.freeze({
  correct: {
    summary: "the grams of each toner to add, from a job with a card and targets",
    file: "a masstone/job in JSON: toners, pot, the card sprayed from it, targets, viewing, limits",
    format: "masstone/correction",
    outputs: { report: "a sheet for the bench, in one HTML file" },
    example: "correct examples/horsebox/job.json --report sheet.html",
    answer(terminal: Terminal, file: string): Answer {
      const job = fromFile(terminal, file, (text) => readJob(text, tonersBeside(terminal, file)));
      const correction = correct(job, { forecast: true });
      const nextStep = adviseNextStep(job, correction);
      return {
        record: { ...correction, nextStep },
        text: correctionText(correction, tonerNames(job.toners), nextStep),
        files: { report: () => correctionHtml(job, correction, { nextStep }) },
      };
    },
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
      const mix = fromFile(terminal, file, (text) => readMixOnCard(text, tonersBeside(terminal, file)));
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
    answer(terminal: Terminal, file: string, unit: MassUnit): Answer {
      const job = fromFile(terminal, file, (text) => readPlan(text, tonersBeside(terminal, file)));
      const plan = planHoldBack(job);
      return {
        record: plan,
        text: holdBackText(plan, tonerNames(job.toners), { unit }),
        files: { report: () => holdBackHtml(job, plan, { display: { unit } }) },
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
    answer(terminal: Terminal, file: string): Answer {
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
