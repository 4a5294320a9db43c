import { version } from "../../package.json";
import { InputError } from "../core/InputError.js";
import { correct } from "../correction/correct.js";
import type { Correction } from "../correction/correction.js";
import type { NextStep } from "../planning/nextStep/nextStep.js";
import type { Job } from "../problem/job.js";
import { answerEntry } from "../record/answerEntry.js";
import { jobOfPot } from "../record/jobOfPot.js";
import { jobState } from "../record/jobState.js";
import { entriesOfJob, tonersOfRecord } from "./entriesOfJob.js";
import { appendEntries, openRecord } from "./openRecord.js";
import type { Terminal } from "./terminal.js";

/**
 * Corrects the pot of a record by its last card, towards the targets of a job file; `save` adds the answer to the record.
 * A record that is not there yet is begun with the pot and the card of the job file.
 */
export function correctOnRecord(
  terminal: Terminal,
  jobFile: string,
  recordFile: string,
): { readonly job: Job; readonly correction: Correction; readonly save: (nextStep: NextStep) => void } {
  const found = openRecord(terminal, recordFile);
  for (const remark of found.remarks) terminal.writeError(`masstone: ${recordFile}: ${remark}\n`);
  const asked = entriesOfJob(terminal, recordFile, jobFile);
  const isNew = found.record.entries.length === 0;
  const open = isNew ? appendEntries(terminal, found, asked) : found;
  const state = jobState(open.record.entries);
  const hasCard = state.cards.length > state.firstCard;
  if (!hasCard || state.isStirred) {
    const reason = !hasCard
      ? "there is no card in it yet"
      : "something was poured since the last card: spray and read one";
    throw new InputError("missing", recordFile, `${reason} (masstone record ${recordFile} --card READINGS)`);
  }
  const [first] = asked;
  const towards = first.kind === "job" ? first.job : {};
  const toners = tonersOfRecord(terminal, recordFile, towards);
  const { card: _, ...others } = towards;
  const job = jobOfPot(state, others, toners);
  const correction = correct(job, { forecast: true });
  const save = (nextStep: NextStep) => {
    appendEntries(terminal, open, [answerEntry(correction, nextStep, version)]);
  };
  return { job, correction, save };
}
