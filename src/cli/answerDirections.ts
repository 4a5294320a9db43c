import { readMixOnCard } from "../formats/jobFile.js";
import { tonerDirections } from "../prediction/tonerDirections.js";
import { directionsDetails } from "../report/correction/directionsDetails.js";
import { directionsHtml } from "../report/correction/directionsHtml.js";
import { directionsText } from "../report/correction/directionsText.js";
import { tonerNames } from "../report/words/tonerName.js";
import { fromFile, textBeside, tonersBeside } from "./files.js";
import { headOf } from "./headOf.js";
import type { Terminal } from "./terminal.js";
import type { Answer } from "./verb.js";

/** Tells what each toner would do to the pot of a job. */
export function answerDirections(terminal: Terminal, file: string): Answer {
  const mix = fromFile(terminal, file, (text) =>
    readMixOnCard(text, tonersBeside(terminal, file), textBeside(terminal, file)),
  );
  const directions = tonerDirections(mix);
  const names = tonerNames(mix.toners);
  return {
    record: directions,
    text: () => directionsText(directions, names),
    more: () => directionsDetails(directions, names),
    files: { report: () => directionsHtml(directions, { names, head: headOf(terminal, file) }) },
  };
}
