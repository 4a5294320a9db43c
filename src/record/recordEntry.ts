import type { Correction } from "../correction/correction.js";
import type { NextLook } from "../correction/nextLook.js";
import type { HoldBackPlan } from "../planning/holdBack/holdBackPlan.js";
import type { Step } from "../planning/nextStep/nextStep.js";
import type { ColourReading } from "../scene/readings/colourReading.js";
import type { Comparison } from "../scene/readings/comparison.js";
import type { Reading } from "../surface/reading.js";
import type { MassUnit } from "../toners/massUnit.js";
import type { Grams } from "../toners/pot.js";

/** What can be noted of a job, as it happened. */
export type RecordEntry =
  /** A job file without pot and card: toners (or the name of their file), viewing, targets, limits, tolerance. */
  | { readonly kind: "job"; readonly job: Readonly<Record<string, unknown>>; readonly unit?: MassUnit }
  /** A plan file: its panels are the targets, one stage after the other. */
  | { readonly kind: "plan"; readonly plan: Readonly<Record<string, unknown>>; readonly unit?: MassUnit }
  /** What `planHoldBack` answered, and which version of the library it was. */
  | { readonly kind: "planned"; readonly library: string; readonly planned: HoldBackPlan }
  /** Grams of one toner as weighed, and which can they came from. */
  | { readonly kind: "pour"; readonly toner: string; readonly grams: number; readonly can?: string }
  /** So many grams of the mix taken out of the pot, for a card or for good. */
  | { readonly kind: "pour-off"; readonly grams: number }
  /** A card sprayed from the pot as it is, and read; without a reading where an eye compares it with a panel. */
  | {
      readonly kind: "card";
      readonly name: string;
      readonly readings: readonly Reading[];
      readonly colours?: readonly ColourReading[];
    }
  /** What an eye saw of a target of the job beside a card. */
  | { readonly kind: "comparison"; readonly target: string; readonly comparison: Comparison }
  /** Panels painted with so many grams of the mix. */
  | { readonly kind: "sprayed"; readonly panels: readonly string[]; readonly grams: number }
  /** Another pot is begun; what is poured from now on goes into it. */
  | { readonly kind: "new-pot" }
  /** What `correct` answered, which version of the library it was, and the step that was advised. */
  | {
      readonly kind: "answer";
      readonly library: string;
      readonly answer: Correction;
      readonly step?: AdvisedStep;
    }
  /** An earlier pour, pour-off or card that was noted wrongly counts no more; `instead`: of a pour, what it really was. */
  | { readonly kind: "withdraw"; readonly entry: number; readonly instead?: Poured }
  | { readonly kind: "note"; readonly text: string };

/** What really went into the pot. */
export interface Poured {
  readonly toner: string;
  readonly grams: number;
  readonly can?: string;
}

/** What was advised, and the grams of it. */
export interface AdvisedStep {
  readonly step: Step;
  readonly grams?: Grams;
  readonly gramsOff?: number;
  readonly look?: NextLook;
}

/** An entry with its place in the record and when it was made. */
export interface DatedEntry {
  /** 0, 1, 2 … */
  readonly number: number;
  /** As 2026-03-31T14:05:00.000Z. */
  readonly at: string;
  readonly entry: RecordEntry;
}
