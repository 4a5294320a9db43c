import { version } from "../../package.json";
import { SPRAYING_CAUTION } from "../core/caution.js";
import { InputError } from "../core/InputError.js";
import { typedNumber } from "../core/typedNumber.js";
import { correct } from "../correction/correct.js";
import { adviseNextStep } from "../planning/nextStep/adviseNextStep.js";
import type { AdvisedCorrection } from "../planning/nextStep/nextStep.js";
import { jobOfPot } from "../record/jobOfPot.js";
import { type JobState, jobState, withEntries } from "../record/jobState.js";
import type { RecordEntry } from "../record/recordEntry.js";
import { correctionDetails } from "../report/correction/correctionDetails.js";
import { correctionText } from "../report/correction/correctionText.js";
import { tonerNames } from "../report/words/tonerName.js";
import { COMPARISON } from "../scene/readings/comparison.js";
import { displayOf } from "./displayOf.js";
import { tonersOfRecord } from "./entriesOfJob.js";
import { appendEntries, openRecord } from "./openRecord.js";
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
 * Notes what an eye saw of a panel beside the card of a record, and corrects by all that was seen. A pot that was stirred since
 * its last card has a new one, which is noted with it.
 */
export function answerCompare(terminal: Terminal, file: string, { unit, details }: Asked): Answer {
  const found = openRecord(terminal, file);
  const before = jobState(found.record.entries);
  if (before.job === undefined) {
    throw new InputError(
      "missing",
      file,
      `there is no such record, or no job in it (masstone record ${file} --job JOB)`,
    );
  }
  const entries = comparisonEntries(before, details);
  const state = jobState(withEntries(found.record.entries, entries));
  const toners = tonersOfRecord(terminal, file, before.job);
  const job = jobOfPot(state, before.job, toners);
  const correction = correct(job, { forecast: true });
  const nextStep = adviseNextStep(job, correction);
  const told = { nextStep, display: displayOf(unit ?? state.unit, job.limits) };
  return {
    record: { ...correction, nextStep, caution: SPRAYING_CAUTION } satisfies AdvisedCorrection,
    text: () => correctionText(correction, tonerNames(toners), told),
    more: () => correctionDetails(correction, tonerNames(toners), told),
    save: () => {
      const answer = { kind: "answer", library: version, answer: correction } as const;
      appendEntries(terminal, found, [...entries, answer]);
    },
  };
}

/** The comparison, and the card where none was noted since the pot was stirred. */
function comparisonEntries(
  { job, cards, firstCard, isStirred, pot }: JobState,
  details: Asked["details"],
): readonly RecordEntry[] {
  const said = (detail: Asked["details"][number][0]) => detailOf(details, detail);
  const targets = Array.isArray(job?.targets) ? (job.targets as readonly { readonly name?: unknown }[]) : [];
  const names = targets.map(({ name }) => String(name));
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
