import type { Correction } from "../correction/correction.js";
import type { NextStep } from "../planning/nextStep/nextStep.js";
import type { Answered } from "./benchStep.js";

/** What a record keeps of a correction and of the step that was advised with it. */
export function answerEntry(
  answer: Correction,
  { step, grams, gramsOff, look }: NextStep,
  library: string,
): Answered {
  const advised = {
    step,
    ...(grams && { grams }),
    ...(gramsOff !== undefined && { gramsOff }),
    ...(look && { look }),
  };
  return { kind: "answer", library, answer, step: advised };
}
