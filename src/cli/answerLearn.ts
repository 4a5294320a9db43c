import { basename } from "node:path";
import { InputError } from "../core/InputError.js";
import { checkHeader } from "../formats/header.js";
import { readMixOnCard } from "../formats/jobFile.js";
import { isRecord } from "../formats/jobRecord.js";
import { parseJson } from "../formats/json.js";
import { readToners, writeToners } from "../formats/tonersFile.js";
import type { PotCards } from "../planning/learning/learningJob.js";
import { learnStrengths } from "../planning/learning/learnStrengths.js";
import { checkLimits, type Limits } from "../problem/limits.js";
import { jobState } from "../record/jobState.js";
import { learningDetails } from "../report/planning/learningDetails.js";
import { learningHtml } from "../report/planning/learningHtml.js";
import { learningText } from "../report/planning/learningText.js";
import { tonerNames } from "../report/words/tonerName.js";
import { isMeasured } from "../scene/card.js";
import type { TonerSet } from "../toners/tonerSet.js";
import { displayOf } from "./displayOf.js";
import { tonersOfRecord } from "./entriesOfJob.js";
import { fromFile, textBeside, tonersBeside } from "./files.js";
import { openRecord } from "./openRecord.js";
import type { Terminal } from "./terminal.js";
import { type Answer, type Asked, detailOf } from "./verb.js";

/** Learns from all files in the order in which they are given. */
export function answerLearn(terminal: Terminal, _file: string, { files, unit, details }: Asked): Answer {
  const sources = files.map((file) => sourceOf(terminal, file));
  const given = detailOf(details, "toners");
  const toners = given === undefined ? sources[0].toners : fromFile(terminal, given, readToners);
  const learning = learnStrengths({ toners, pots: sources.map(({ pot }) => pot) });
  // Learning needs no limits; they are read for the weight of drops alone.
  const display = displayOf(unit, ...(unit === "drops" ? sources.map(limitsOf) : []));
  return {
    record: learning,
    text: () => learningText(learning, tonerNames(toners), display),
    more: () => learningDetails(learning, tonerNames(toners), display),
    files: {
      out: () => writeToners(learning.toners),
      report: () => learningHtml(learning, { display }),
    },
  };
}

/** The contents of one FILE. */
interface Source {
  readonly file: string;
  readonly toners: TonerSet;
  readonly pot: PotCards;
  /** Not checked. */
  readonly limits?: unknown;
}

function limitsOf({ file, toners, limits = {} }: Source): Limits {
  return checkLimits(limits, `${file}: limits`, toners.toners);
}

function sourceOf(terminal: Terminal, file: string): Source {
  const text = fromFile(terminal, file, (content) => content);
  // Read once: a pipe cannot be read twice.
  const held: Terminal = { ...terminal, readFile: () => text };
  const name = basename(file);
  if (isRecord(text)) {
    const { record, remarks } = openRecord(terminal, file);
    for (const remark of remarks) terminal.writeError(`masstone: ${file}: ${remark}\n`);
    const { job = {}, cans, cards: sprayed } = jobState(record.entries);
    // What an eye saw tells nothing of a can.
    const cards = sprayed.filter(isMeasured);
    if (cards.length === 0)
      throw new InputError("missing", file, "there is no card in this record to learn from");
    const date = record.entries[0].at.slice(0, 10);
    const { limits } = job;
    return { file, toners: tonersOfRecord(terminal, file, job), pot: { name, date, cans, cards }, limits };
  }
  const { toners, pot, card } = fromFile(held, file, (content) =>
    readMixOnCard(content, tonersBeside(terminal, file), textBeside(terminal, file)),
  );
  if (card === undefined) throw new InputError("missing", file, "there is no card in this job to learn from");
  const { limits } = fromFile(held, file, (content) => checkHeader(parseJson(content), "masstone/job"));
  return { file, toners, limits, pot: { name, cards: [{ ...card, name: "card", pot }] } };
}
