import { characterise } from "../characterisation/characterise.js";
import { readSamples } from "../formats/samplesFile.js";
import { writeToners } from "../formats/tonersFile.js";
import { characterisationDetails } from "../report/characterisation/characterisationDetails.js";
import { characterisationHtml } from "../report/characterisation/characterisationHtml.js";
import { characterisationText } from "../report/characterisation/characterisationText.js";
import { tonerNames } from "../report/words/tonerName.js";
import { fromFile, textBeside } from "./files.js";
import type { Screen } from "./screen.js";
import { showProgress } from "./showProgress.js";
import type { Answer } from "./verb.js";

/** Makes toners from readings of known mixes. */
export function answerCharacterise(terminal: Screen, file: string): Answer {
  const { job, leftOut } = fromFile(terminal, file, (text) => readSamples(text, textBeside(terminal, file)));
  const progress = showProgress(terminal);
  const characterisation = characterise(job, progress.show);
  progress.clear();
  const names = tonerNames(characterisation.toners);
  const unused = leftOut.length === 0 ? "" : `\nNot used: ${leftOut.join(", ")}.\n`;
  const counted =
    leftOut.length === 0 ? "" : `\nNot used: ${leftOut.length} readings that no sample names (--details).\n`;
  return {
    record: characterisation,
    text: () => characterisationText(characterisation, names) + counted,
    more: () => characterisationDetails(characterisation, names) + unused,
    files: {
      out: () => writeToners(characterisation.toners),
      report: () => characterisationHtml(characterisation, { names, samples: job.samples }),
    },
  };
}
