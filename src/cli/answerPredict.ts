import { readMix } from "../formats/jobFile.js";
import { predict } from "../prediction/predict.js";
import { predictionText } from "../report/correction/predictionText.js";
import { tonerNames } from "../report/words/tonerName.js";
import { fromFile, tonersBeside } from "./files.js";
import type { Terminal } from "./terminal.js";
import type { Answer } from "./verb.js";

/** Predicts the colour of the pot of a job. */
export function answerPredict(terminal: Terminal, file: string): Answer {
  const mix = fromFile(terminal, file, (text) => readMix(text, tonersBeside(terminal, file)));
  const prediction = predict(mix);
  return { record: prediction, text: () => predictionText(prediction, tonerNames(mix.toners)) };
}
