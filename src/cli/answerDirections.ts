import { tonerDirections } from "../correction/tonerDirections.js";
import { readMixOnCard } from "../formats/jobFile.js";
import { directionsText } from "../report/directionsText.js";
import { tonerNames } from "../report/tonerName.js";
import { fromFile, textBeside, tonersBeside } from "./files.js";
import type { Terminal } from "./terminal.js";
import type { Answer } from "./verb.js";

/** Tells what each toner would do to the pot of a job. */
export function answerDirections(terminal: Terminal, file: string): Answer {
  const mix = fromFile(terminal, file, (text) =>
    readMixOnCard(text, tonersBeside(terminal, file), textBeside(terminal, file)),
  );
  const directions = tonerDirections(mix);
  return { record: directions, text: () => directionsText(directions, tonerNames(mix.toners)) };
}
