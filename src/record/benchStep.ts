import type { Correction } from "../correction/correction.js";
import type { NextLook } from "../correction/nextLook.js";
import type { Step } from "../planning/nextStep/nextStep.js";
import type { MassUnit } from "../toners/massUnit.js";
import type { Grams } from "../toners/pot.js";
import { type Asked, nextStage, type Stage } from "./asked.js";
import type { AdvisedStep, RecordEntry } from "./recordEntry.js";

/** What there is to do next. */
export type BenchStep =
  | { readonly kind: "start" }
  /** `gramsOff`: to be poured off before. `isNewPot`: into another pot. `tilt`: how the card is sprayed then, as of `respray`. */
  | {
      readonly kind: "pour";
      readonly pours: readonly { readonly toner: string; readonly grams: number }[];
      readonly gramsOff?: number;
      readonly isNewPot?: boolean;
      readonly tilt?: number;
    }
  | { readonly kind: "plan" }
  /** `isSameCard`: the card that is there is read once more. */
  | { readonly kind: "read-card"; readonly isSameCard?: boolean }
  | { readonly kind: "compare"; readonly look: NextLook }
  | { readonly kind: "correct" }
  /** A card of the same pot with its flakes lying as on the panels; `tilt` as in `masstone/correction`. */
  | { readonly kind: "respray"; readonly tilt: number }
  /** Panels of a plan, and the paint for them. */
  | { readonly kind: "spray"; readonly panels: readonly string[]; readonly grams: number }
  | { readonly kind: "done"; readonly status: Correction["status"] };

/** The step of answers that were noted without one. */
const STEP_OF: Readonly<Record<Correction["status"], Step>> = Object.freeze({
  corrected: "pour",
  "good-enough": "good-enough",
  "out-of-reach": "pour",
  "by-eye": "pour",
  undetermined: "re-measure",
  respray: "respray",
  "other-flake": "other-flake",
});

/** What the advised step of an answer asks for at the bench; `done` where that is nothing but paint, or nothing at all. */
export function benchStepOf(
  { step, grams = {}, gramsOff = 0, look }: AdvisedStep,
  { status, spray }: Pick<Correction, "status" | "spray">,
): BenchStep {
  const pours = Object.entries(grams)
    .filter(([, amount]) => amount > 0)
    .map(([toner, amount]) => ({ toner, grams: amount }));
  const isNewPot = step === "new-pot";
  const so = step === "respray" ? { tilt: Number(spray?.tilt ?? 0) } : undefined;
  if (isNewPot || pours.length > 0 || gramsOff > 0) {
    return { kind: "pour", pours, ...(gramsOff > 0 && { gramsOff }), ...(isNewPot && { isNewPot }), ...so };
  }
  if (step === "re-measure") return { kind: "read-card", isSameCard: true };
  if (step === "compare" && look) return { kind: "compare", look };
  if (so) return { kind: "respray", ...so };
  return step === "compare" ? { kind: "read-card" } : { kind: "done", status };
}

export type Answered = Extract<RecordEntry, { kind: "answer" }>;

/** What a record was begun with. */
export interface Begun {
  readonly job?: Readonly<Record<string, unknown>>;
  readonly plan?: Readonly<Record<string, unknown>>;
  /** What amounts are typed and shown in. */
  readonly unit?: MassUnit;
}

/** What is next, from where a job stands. */
export function nextStep(at: {
  readonly begun: Begun | undefined;
  readonly stages: readonly Stage[] | undefined;
  readonly sprayed: readonly string[];
  readonly pot: Grams;
  readonly asked: Asked;
  readonly hasFreshCard: boolean;
  readonly answer: Answered | undefined;
}): BenchStep {
  if (at.begun === undefined) return { kind: "start" };
  const stage = nextStage(at.stages ?? [], at.sprayed);
  if (at.stages && !stage) return { kind: "done", status: "good-enough" };
  const isEmpty = Object.keys(at.pot).length === 0;
  if (isEmpty && at.begun.plan !== undefined && !at.stages) return { kind: "plan" };
  const { grams, gramsOff, isNewPot } = at.asked;
  const answer = at.answer?.answer;
  const step = at.answer?.step ?? (answer && { step: STEP_OF[answer.status] });
  const so = step?.step === "respray" ? answer : undefined;
  const left: AdvisedStep = { step: isNewPot ? "new-pot" : so ? "respray" : "pour", grams, gramsOff };
  const pouring = benchStepOf(left, so ?? { status: "corrected" });
  if (pouring.kind === "pour") return pouring;
  if (isEmpty) return { kind: "pour", pours: [] };
  if (!at.hasFreshCard) return so ? pouring : { kind: "read-card" };
  if (!answer || !step) return { kind: "correct" };
  const isPaint = step.step === "good-enough" || step.step === "blend";
  if (stage && isPaint) return { kind: "spray", panels: stage.panels, grams: stage.sprayGrams };
  const { grams: _, gramsOff: __, ...poured } = step;
  return benchStepOf(poured, answer);
}
