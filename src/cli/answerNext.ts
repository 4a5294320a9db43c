import { version } from "../../package.json";
import { InputError } from "../core/InputError.js";
import { checkLimits } from "../problem/limits.js";
import { jobState } from "../record/jobState.js";
import { whatNext } from "../record/whatNext.js";
import { correctionDetails } from "../report/correction/correctionDetails.js";
import { holdBackDetails } from "../report/planning/holdBackDetails.js";
import { jobStateDetails } from "../report/record/jobStateText.js";
import { whatNextText } from "../report/record/whatNextText.js";
import { tonerNames } from "../report/words/tonerName.js";
import { displayOf } from "./displayOf.js";
import { tonersOfRecord } from "./entriesOfJob.js";
import { nextCommand } from "./nextCommand.js";
import { appendEntries, openRecord } from "./openRecord.js";
import type { Terminal } from "./terminal.js";
import type { Answer, Asked } from "./verb.js";

/** Says what to do now in a recorded job, and adds what was worked out to its record. */
export function answerNext(terminal: Terminal, file: string, { unit: asked }: Asked): Answer {
  const open = openRecord(terminal, file);
  const { entries } = open.record;
  const state = jobState(entries);
  const begun = state.job ?? state.plan;
  if (begun === undefined) {
    const reason = `there is no such record: begin one with masstone record ${file} --plan PLAN, or --job JOB`;
    throw new InputError("missing", file, reason);
  }
  const toners = tonersOfRecord(terminal, file, begun);
  const { answer, note } = whatNext(entries, toners, { library: version });
  const unit = asked ?? state.unit ?? "g";
  const display = displayOf(unit, checkLimits(begun.limits ?? {}, "limits", toners.toners));
  const names = tonerNames(toners);
  const { plan, correction } = answer;
  const told = { names, remarks: open.remarks, added: [], display };
  return {
    record: answer,
    text: () =>
      whatNextText(answer, state.pot, { names, display, command: nextCommand(file, answer.next, unit) }),
    more: () =>
      plan
        ? holdBackDetails(plan, names, display)
        : correction
          ? correctionDetails(correction, names, {
              display,
              ...(correction.nextStep && { nextStep: correction.nextStep }),
            })
          : jobStateDetails(state, told),
    ...(note && { save: () => void appendEntries(terminal, open, [note]) }),
  };
}
