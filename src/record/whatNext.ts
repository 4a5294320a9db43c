import { SPRAYING_CAUTION } from "../core/caution.js";
import { InputError } from "../core/InputError.js";
import { correct } from "../correction/correct.js";
import type { HoldBackPlan } from "../planning/holdBack/holdBackPlan.js";
import { planHoldBack } from "../planning/holdBack/planHoldBack.js";
import { checkPlanJob, type PlanJob } from "../planning/holdBack/planJob.js";
import { adviseNextStep } from "../planning/nextStep/adviseNextStep.js";
import type { AdvisedCorrection, NextStep } from "../planning/nextStep/nextStep.js";
import type { Job } from "../problem/job.js";
import { LIMITS_DEFAULTS } from "../problem/limits.js";
import { flakeWords, lieWords } from "../problem/spray/flakeWords.js";
import { type Grams, totalGrams } from "../toners/pot.js";
import type { TonerSet } from "../toners/tonerSet.js";
import { answerEntry } from "./answerEntry.js";
import type { Stage } from "./asked.js";
import type { BenchStep } from "./benchStep.js";
import { filledUp } from "./filledUp.js";
import { jobOfRecord, stageOf } from "./jobOfRecord.js";
import { type JobState, jobState, withEntries } from "./jobState.js";
import type { DatedEntry, RecordEntry } from "./recordEntry.js";

/** What there is to do now, why, and what it was worked out from. */
export interface WhatNext {
  readonly format: "masstone/next";
  readonly version: 1;
  readonly next: BenchStep;
  /** In one sentence. */
  readonly why: string;
  /** What the next best step would cost more, in the unit of the prices; null where nothing was weighed. */
  readonly costOfOther: number | null;
  /** Where it was worked out now. */
  readonly plan: HoldBackPlan | null;
  readonly correction: AdvisedCorrection | null;
  /** Before anything is sprayed. */
  readonly caution: string;
}

/** An answer, and what of it belongs into the record. */
export interface NotedNext {
  readonly answer: WhatNext;
  readonly note: RecordEntry | null;
  /** What it was worked out from. */
  readonly from?: { readonly plan?: PlanJob; readonly job?: Job };
}

/**
 * What to do now in a recorded job: plans where there is no pot, corrects where there is a fresh card, else says what is
 * still to be done. `toners` are those of the job; `library` is noted with what was worked out. The same record gives the
 * same answer. Throws InputError: `missing` of a record without a job, and what planning and correcting throw.
 */
export function whatNext(
  entries: readonly DatedEntry[],
  toners: TonerSet,
  { library }: { readonly library: string },
): NotedNext {
  const state = jobState(entries);
  switch (state.next.kind) {
    case "start":
      throw new InputError("missing", "entry 0", "a record begins with its job or its plan");
    case "plan":
      return planned(entries, state, { toners, library });
    case "correct":
      return corrected(entries, state, { toners, library });
    default:
      return { answer: answerOf(state.next, { why: whyOf(state) }), note: null };
  }
}

interface With {
  readonly toners: TonerSet;
  readonly library: string;
}

function answerOf(
  next: BenchStep,
  more: Pick<WhatNext, "why"> & Partial<Pick<WhatNext, "plan" | "correction" | "costOfOther">>,
): WhatNext {
  const nothing = { costOfOther: null, plan: null, correction: null } as const;
  return { format: "masstone/next", version: 1, next, ...nothing, ...more, caution: SPRAYING_CAUTION };
}

function planned(entries: readonly DatedEntry[], { plan }: JobState, { toners, library }: With): NotedNext {
  const from = { plan: checkPlanJob({ ...plan, toners }) };
  const answer = planHoldBack(from.plan);
  const why = "There is no paint yet: what the sun took is worked out from formulas and panels.";
  if (answer.status === "unexplained") {
    return { answer: answerOf({ kind: "plan" }, { why, plan: answer }), note: null, from };
  }
  const note = { kind: "planned", library, planned: answer } as const;
  return { answer: answerOf(afterNote(entries, note), { why, plan: answer }), note, from };
}

function corrected(entries: readonly DatedEntry[], state: JobState, { toners, library }: With): NotedNext {
  const stage = stageOf(state);
  const job = jobOfRecord(state, toners);
  const correction = correct(job, { forecast: true });
  const advice = adviseNextStep(job, correction, { readings: timesRead(state) });
  const nextStep = withPaintFor(stage, advice, { state, job });
  const note = answerEntry(correction, nextStep, library);
  const [best, other] = nextStep.choices;
  const why = nextStep.reasons.at(-1) ?? "";
  const costOfOther = other ? other.expectedLoss - best.expectedLoss : null;
  const told = { why, costOfOther, correction: { ...correction, nextStep } };
  return { answer: answerOf(afterNote(entries, note), told), note, from: { job } };
}

/** What is next once an entry is noted. */
function afterNote(entries: readonly DatedEntry[], entry: RecordEntry): BenchStep {
  return jobState(withEntries(entries, [entry])).next;
}

/** How often the pot as it is was read. */
function timesRead({ cards, firstCard }: JobState): number {
  const last = cards.at(-1);
  const again = cards.slice(firstCard).filter(({ pot }) => JSON.stringify(pot) === JSON.stringify(last?.pot));
  return Math.max(1, again.length);
}

/** Advice with as much paint of the same colour as the panels need: binder and clear keep their share. */
function withPaintFor(
  stage: Stage | undefined,
  advice: NextStep,
  { state: { pot }, job: { limits = {}, toners } }: { readonly state: JobState; readonly job: Job },
): NextStep {
  if (!stage) return advice;
  const { scaleStepGrams = LIMITS_DEFAULTS.scaleStepGrams, potMaxGrams = Number.POSITIVE_INFINITY } = limits;
  const fill = (grams: Grams, wantedGrams: number) =>
    filledUp(pot, grams, { toners, scaleStepGrams, wantedGrams: Math.min(wantedGrams, potMaxGrams) });
  if (advice.step === "pour" && advice.grams) return { ...advice, grams: fill(advice.grams, stage.potGrams) };
  const isPaint = advice.step === "good-enough" || advice.step === "blend";
  const grams = isPaint ? fill({}, stage.sprayGrams) : {};
  if (totalGrams(grams) === 0) return advice;
  const reason = `The colour is right, and the pot holds ${totalGrams(pot).toFixed(1)} g of the ${stage.sprayGrams.toFixed(1)} g that ${stage.panels.join(", ")} needs.`;
  return { ...advice, step: "pour", pour: "full", grams, reasons: [...advice.reasons, reason] };
}

function whyOf({ next, cards, firstCard, isStirred }: JobState): string {
  switch (next.kind) {
    case "pour":
      if (next.pours.length === 0)
        return "The pot is empty, and there is no plan to say what belongs into it.";
      return next.isNewPot
        ? "The panels of the pot before are painted, or it was not worth mending."
        : "So much is still to be poured of what was asked.";
    case "compare":
      return "By eye alone nothing is certain, and another look costs nothing.";
    case "read-card":
      return cards.length > firstCard
        ? "Since the last card something was poured or its reading was doubted: only a card shows what the pot has become."
        : "Only a card shows how strong the cans are.";
    case "respray":
      return isStirred ? `${lieWords(next.tilt)}.` : flakeWords({ verdict: "respray", tilt: next.tilt });
    case "spray":
      return "Another card is not expected to gain what it costs.";
    case "done":
      return next.status === "other-flake"
        ? "The panels have another flake: neither tinting nor spraying this pot matches them."
        : "Nothing is left to do.";
    default:
      return "Nothing is left to do.";
  }
}
