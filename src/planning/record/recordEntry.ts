import type { Correction } from "../../correction/correction.js";
import type { ColourReading } from "../../scene/readings/colourReading.js";
import type { Comparison } from "../../scene/readings/comparison.js";
import type { Reading } from "../../surface/reading.js";

/** What can be noted of a job, as it happened. */
export type RecordEntry =
  /** A job file without pot and card: toners (or the name of their file), viewing, targets, limits, tolerance. */
  | { readonly kind: "job"; readonly job: Readonly<Record<string, unknown>> }
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
  /** What `correct` answered, and which version of the library it was. */
  | { readonly kind: "answer"; readonly library: string; readonly answer: Correction }
  /** An earlier pour, pour-off or card that was noted wrongly counts no more. */
  | { readonly kind: "withdraw"; readonly entry: number }
  | { readonly kind: "note"; readonly text: string };

/** An entry with its place in the record and when it was made. */
export interface DatedEntry {
  /** 0, 1, 2 … */
  readonly number: number;
  /** As 2026-03-31T14:05:00.000Z. */
  readonly at: string;
  readonly entry: RecordEntry;
}
