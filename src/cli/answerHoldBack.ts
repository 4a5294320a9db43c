import { readPlan } from "../formats/readPlan.js";
import { planHoldBack } from "../planning/holdBack/planHoldBack.js";
import { holdBackDetails } from "../report/planning/holdBackDetails.js";
import { holdBackHtml } from "../report/planning/holdBackHtml.js";
import { holdBackText } from "../report/planning/holdBackText.js";
import { lines } from "../report/words/screenText.js";
import { tonerNames } from "../report/words/tonerName.js";
import { displayOf } from "./displayOf.js";
import { fromFile, textBeside, tonersBeside } from "./files.js";
import { headOf } from "./headOf.js";
import { pastedCommand, recordNamedAfter } from "./nextCommand.js";
import type { Terminal } from "./terminal.js";
import type { Answer, Asked } from "./verb.js";

/** Plans the first pot for faded panels. */
export function answerHoldBack(terminal: Terminal, file: string, { unit }: Asked): Answer {
  const job = fromFile(terminal, file, (text) =>
    readPlan(text, tonersBeside(terminal, file), textBeside(terminal, file)),
  );
  const plan = planHoldBack(job);
  const display = displayOf(unit, job.limits);
  const next = () => {
    if (file === "-") return "";
    const begin = ["next", recordNamedAfter(terminal, file), "--plan", file];
    const line = pastedCommand([...begin, ...(unit ? ["--unit", unit] : [])], terminal);
    return lines("Next: begin a record, which then says what to do:", line);
  };
  return {
    record: plan,
    text: () => holdBackText(plan, tonerNames(job.toners), display, next()),
    more: () => holdBackDetails(plan, tonerNames(job.toners), display),
    files: { report: () => holdBackHtml(job, plan, { display, head: headOf(terminal, file) }) },
  };
}
