import { InputError } from "../core/InputError.js";
import { typedNumber } from "../core/typedNumber.js";
import { targetsOf } from "../record/jobOfRecord.js";
import { type JobState, jobState } from "../record/jobState.js";
import type { RecordEntry } from "../record/recordEntry.js";
import { COMPARISON } from "../scene/readings/comparison.js";
import { nextOnRecord } from "./nextOnRecord.js";
import { type OpenRecord, openRecord } from "./openRecord.js";
import type { Terminal } from "./terminal.js";
import { type Answer, type Asked, detailOf } from "./verb.js";

/** Grades by their options. */
const GRADES = {
  lighter: "lighter",
  redder: "redder",
  yellower: "yellower",
  "more-chromatic": "moreChromatic",
} as const;

/**
 * Notes what an eye saw of a panel beside the card of a record, and says what to do by all that was seen. A pot that was
 * stirred since its last card has a new one, which is noted with it.
 */
export function answerCompare(terminal: Terminal, file: string, asked: Asked): Answer {
  const open = openRecord(terminal, file);
  const entries = comparisonEntries(jobOfFile(open), asked.details);
  const { correction, ...told } = nextOnRecord(terminal, open, entries, asked.unit);
  if (correction === null) throw usage("compare", "every panel is painted: nothing is left to match");
  return { ...told, record: correction };
}

/** Where the job of a record stands. Throws `missing` where there is none. */
function jobOfFile({ path, record }: OpenRecord): JobState {
  const state = jobState(record.entries);
  if (state.job ?? state.plan) return state;
  const reason = `there is no such record, or no job in it (masstone record ${path} --job JOB)`;
  throw new InputError("missing", path, reason);
}

/** The comparison, and the card where none was noted since the pot was stirred. */
function comparisonEntries(state: JobState, details: Asked["details"]): readonly RecordEntry[] {
  const { cards, firstCard, isStirred, pot } = state;
  const said = (detail: Asked["details"][number][0]) => detailOf(details, detail);
  const names = targetsOf(state);
  const target = said("target") ?? (names.length === 1 ? names[0] : undefined);
  if (target === undefined) throw usage("--target", `say which panel: ${names.join(", ")}`);
  if (!names.includes(target))
    throw usage("--target", `the job has no "${target}"; it has ${names.join(", ")}`);
  const illuminant = said("light");
  if (illuminant === undefined) {
    throw usage(
      "--light",
      "say under which light, such as D65 or A: the same pair may match under one and not another",
    );
  }
  const targetIs = Object.fromEntries(
    Object.entries(GRADES).flatMap(([detail, component]) => {
      const typed = said(detail as keyof typeof GRADES);
      if (typed === undefined) return [];
      const { value, unit } = typedNumber(typed, `--${detail}`);
      if (unit !== "") throw usage(`--${detail}`, `"${typed}" is no grade`);
      return [[component, value]];
    }),
  );
  if (Object.keys(targetIs).length === 0) {
    throw usage(
      "--lighter",
      "say how the panel differs, such as --lighter 1 --yellower -2; 0 where you see no difference",
    );
  }
  const fresh = isStirred || cards.length === firstCard;
  if (fresh && Object.keys(pot).length === 0)
    throw usage("compare", "the pot is empty: no card can be of it");
  const card = fresh ? `card ${cards.length + 1}` : (said("beside") ?? (cards.at(-1)?.name as string));
  const observer = said("observer");
  const comparison = COMPARISON.check(
    { card, illuminant, scale: said("scale") ?? "iso-3668", targetIs, ...(observer && { observer }) },
    "comparison",
  );
  return [
    ...(fresh ? [{ kind: "card", name: card, readings: [] } as const] : []),
    { kind: "comparison", target, comparison },
  ];
}

function usage(option: string, reason: string): InputError {
  return new InputError("usage", option, reason);
}
