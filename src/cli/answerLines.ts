import { isInputError } from "../core/InputError.js";
import type { Refusal } from "./refusal.js";
import type { Screen } from "./screen.js";
import { EXIT } from "./terminal.js";
import type { AnswerVerb, Asked } from "./verb.js";

/**
 * Answers each line of a file by a line, in order: the record that --json prints, or a `Refusal`. A line is read when the
 * answer before it was taken; where nobody takes answers any more, no more lines are read.
 */
export function answerLines(screen: Screen, answer: AnswerVerb, file: string, asked: Asked): number {
  let number = 0;
  let code: number = EXIT.answered;
  for (const line of screen.readLines(file)) {
    if (!screen.isRead()) break;
    number += 1;
    try {
      const { record } = answer({ ...screen, ...line, isWatched: false }, `${file}, line ${number}`, asked);
      screen.write(`${JSON.stringify(record)}\n`);
    } catch (error) {
      if (!isInputError(error)) throw error;
      code = EXIT.refused;
      const { code: why, path, reason } = error;
      const refusal: Refusal = {
        format: "masstone/refusal",
        version: 1,
        line: number,
        code: why,
        path,
        reason,
      };
      screen.write(`${JSON.stringify(refusal)}\n`);
    }
  }
  return code;
}
