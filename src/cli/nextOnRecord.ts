import { version } from "../../package.json";
import { InputError } from "../core/InputError.js";
import { checkLimits } from "../problem/limits.js";
import { jobState, withEntries } from "../record/jobState.js";
import type { RecordEntry } from "../record/recordEntry.js";
import { type NotedNext, type WhatNext, whatNext } from "../record/whatNext.js";
import { correctionDetails } from "../report/correction/correctionDetails.js";
import { correctionHtml } from "../report/correction/correctionHtml.js";
import type { SheetHead } from "../report/page/sheetHead.js";
import { holdBackDetails } from "../report/planning/holdBackDetails.js";
import { holdBackHtml } from "../report/planning/holdBackHtml.js";
import { jobStateDetails } from "../report/record/jobStateText.js";
import { whatNextText } from "../report/record/whatNextText.js";
import type { MassDisplay } from "../report/words/massText.js";
import { tonerNames } from "../report/words/tonerName.js";
import type { MassUnit } from "../toners/massUnit.js";
import { displayOf } from "./displayOf.js";
import { tonersOfRecord } from "./entriesOfJob.js";
import { headOf } from "./headOf.js";
import { mendCommand } from "./mendCommand.js";
import { nextCommand } from "./nextCommand.js";
import { appendEntries, type OpenRecord } from "./openRecord.js";
import type { Terminal } from "./terminal.js";
import type { Answer } from "./verb.js";

/** What to do now in a record once `further` entries are noted; they are saved with what was worked out. */
export function nextOnRecord(
  terminal: Terminal,
  open: OpenRecord,
  further: readonly RecordEntry[],
  asked: MassUnit | undefined,
): Omit<Answer, "record"> & { readonly answer: WhatNext; readonly correction: WhatNext["correction"] } {
  const { path } = open;
  const entries = withEntries(open.record.entries, further);
  const state = jobState(entries);
  const begun = state.job ?? state.plan;
  if (begun === undefined) {
    const reason = `there is no such record: begin one with masstone next ${path} --plan PLAN, or --job JOB`;
    throw new InputError("missing", path, reason);
  }
  const toners = tonersOfRecord(terminal, path, begun);
  const { answer, note, from } = whatNext(entries, toners, { library: version });
  const unit = asked ?? state.unit ?? "g";
  const display = displayOf(unit, checkLimits(begun.limits ?? {}, "limits", toners.toners));
  const names = tonerNames(toners);
  const { plan, correction, next } = answer;
  const called = { record: path, unit, program: terminal.program };
  const texts = {
    names,
    display,
    command: nextCommand(next, called),
    mend: correction ? mendCommand(correction, entries, called) : "",
  };
  const noted = [...further, ...(note ? [note] : [])];
  return {
    answer,
    correction,
    text: () => whatNextText(answer, state.pot, texts),
    more: () =>
      plan
        ? holdBackDetails(plan, names, display)
        : correction
          ? correctionDetails(correction, names, {
              display,
              ...(correction.nextStep && { nextStep: correction.nextStep }),
            })
          : jobStateDetails(state, { names, remarks: open.remarks, added: [], display }),
    files: { report: () => sheetOf(answer, from, { display, head: headOf(terminal, path) }) },
    ...(noted.length > 0 && { save: () => void appendEntries(terminal, open, noted) }),
  };
}

/** The sheet of what was worked out just now. */
function sheetOf(
  { plan, correction }: WhatNext,
  from: NotedNext["from"],
  style: { readonly display: MassDisplay; readonly head: SheetHead },
): string {
  if (plan && from?.plan) return holdBackHtml(from.plan, plan, style);
  if (correction && from?.job) {
    const { nextStep } = correction;
    return correctionHtml(from.job, correction, { ...style, ...(nextStep && { nextStep }) });
  }
  throw new InputError(
    "missing",
    "--report",
    "nothing had to be worked out now: what is next stands in the answer",
  );
}
