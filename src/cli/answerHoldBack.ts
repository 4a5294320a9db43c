import { readPlan } from "../formats/readPlan.js";
import { planHoldBack } from "../planning/holdBack/planHoldBack.js";
import { holdBackDetails } from "../report/planning/holdBackDetails.js";
import { holdBackHtml } from "../report/planning/holdBackHtml.js";
import { holdBackText } from "../report/planning/holdBackText.js";
import { tonerNames } from "../report/words/tonerName.js";
import { displayOf } from "./displayOf.js";
import { fromFile, tonersBeside } from "./files.js";
import type { Terminal } from "./terminal.js";
import type { Answer, Asked } from "./verb.js";

/** Plans the first pot for faded panels. */
export function answerHoldBack(terminal: Terminal, file: string, { unit }: Asked): Answer {
  const job = fromFile(terminal, file, (text) => readPlan(text, tonersBeside(terminal, file)));
  const plan = planHoldBack(job);
  const display = displayOf(unit, job.limits);
  return {
    record: plan,
    text: () => holdBackText(plan, tonerNames(job.toners), display),
    more: () => holdBackDetails(plan, tonerNames(job.toners), display),
    files: { report: () => holdBackHtml(job, plan, { display }) },
  };
}
