import { correct } from "../correction/correct.js";
import { readJob, readMix } from "../formats/jobFile.js";
import { predict } from "../prediction/predict.js";
import { correctionText } from "../report/correctionText.js";
import { predictionText } from "../report/predictionText.js";
import type { TonerSet } from "../toners/tonerSet.js";
import { fromFile, tonersBeside } from "./files.js";
import type { Terminal } from "./terminal.js";

/** An answer as a record for programs and as text for people. */
export interface Answer {
  readonly record: object;
  readonly text: string;
}

/** One word of the command line. */
export interface Verb {
  readonly summary: string;
  readonly answer: (terminal: Terminal, file: string) => Answer;
}

export const VERBS: Readonly<Record<string, Verb>> = Object.freeze({
  correct: {
    summary: "the grams of each toner to add, from a job with a card and targets",
    answer(terminal: Terminal, file: string): Answer {
      const job = fromFile(terminal, file, (text) => readJob(text, tonersBeside(terminal, file)));
      const correction = correct(job);
      return { record: correction, text: correctionText(correction, namesOf(job.toners)) };
    },
  },
  predict: {
    summary: "the reflectance and colour of the mix in a job's pot",
    answer(terminal: Terminal, file: string): Answer {
      const mix = fromFile(terminal, file, (text) => readMix(text, tonersBeside(terminal, file)));
      const prediction = predict(mix);
      return { record: prediction, text: predictionText(prediction, namesOf(mix.toners)) };
    },
  },
});

function namesOf({ toners }: TonerSet): Readonly<Record<string, string>> {
  return Object.fromEntries(toners.map(({ id, name = id }) => [id, name]));
}
