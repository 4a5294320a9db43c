import type { Correction } from "../correction/correction.js";
import type { Step } from "../planning/nextStep/nextStep.js";
import type { MassUnit } from "../toners/massUnit.js";
import type { Grams } from "../toners/pot.js";
import { type Asked, isPainted, type Stage } from "./asked.js";
import type { RecordEntry } from "./recordEntry.js";

/** What there is to do next. */
export type BenchStep =
  | { readonly kind: "start" }
  /** `gramsOff`: to be poured off before. `isNewPot`: into another pot. */
  | {
      readonly kind: "pour";
      readonly pours: readonly { readonly toner: string; readonly grams: number }[];
      readonly gramsOff?: number;
      readonly isNewPot?: boolean;
    }
  | { readonly kind: "plan" }
  | { readonly kind: "read-card" }
  | { readonly kind: "correct" }
  /** Panels of a plan, and the paint for them. */
  | { readonly kind: "spray"; readonly panels: readonly string[]; readonly grams: number }
  | { readonly kind: "done"; readonly status: Correction["status"] };

/** Steps after which the same pot is looked at again. */
const AGAIN: readonly Step[] = ["re-measure", "compare", "respray"];

/** The same of answers without a step; a card sprayed otherwise comes before any pour. */
const AGAIN_STATUS: readonly Correction["status"][] = ["undetermined", "respray"];

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
  const stage = at.stages?.find((one) => !isPainted(one, at.sprayed));
  if (at.stages && !stage) return { kind: "done", status: "good-enough" };
  const isEmpty = Object.keys(at.pot).length === 0;
  if (isEmpty && at.begun.plan !== undefined && !at.stages) return { kind: "plan" };
  const { grams, gramsOff, isNewPot } = at.asked;
  const pours = Object.entries(grams).map(([toner, amount]) => ({ toner, grams: amount }));
  if (isEmpty || pours.length > 0 || gramsOff > 0) {
    return { kind: "pour", pours, ...(gramsOff > 0 && { gramsOff }), ...(isNewPot && { isNewPot }) };
  }
  if (!at.hasFreshCard) return { kind: "read-card" };
  if (at.answer === undefined) return { kind: "correct" };
  const { answer, step } = at.answer;
  // A card that is not believed or not readable gave no pours: it is read again.
  if (AGAIN_STATUS.includes(answer.status) || AGAIN.includes(step?.step ?? "pour"))
    return { kind: "read-card" };
  const isPaint = step
    ? step.step === "good-enough" || step.step === "blend"
    : answer.status === "good-enough";
  if (stage && isPaint) return { kind: "spray", panels: stage.panels, grams: stage.sprayGrams };
  return { kind: "done", status: answer.status };
}
