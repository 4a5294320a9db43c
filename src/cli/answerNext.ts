import { entriesToBegin } from "./entriesOfJob.js";
import { nextOnRecord } from "./nextOnRecord.js";
import { openRecord } from "./openRecord.js";
import type { Terminal } from "./terminal.js";
import type { Answer, Asked } from "./verb.js";

/** Says what to do now in a recorded job, and adds what was worked out to its record. */
export function answerNext(terminal: Terminal, file: string, { unit, details }: Asked): Answer {
  const open = openRecord(terminal, file);
  const begun = details.flatMap((detail) => entriesToBegin(terminal, file, detail, unit));
  const { answer, correction: _, ...told } = nextOnRecord(terminal, open, begun, unit);
  return { ...told, record: answer };
}
