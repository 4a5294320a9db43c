import type { Reading } from "../surface/reading.js";
import type { Grams } from "../toners/pot.js";

/** One reading of a drawdown, and of the bare backing under it. */
export interface SampleReading extends Reading {
  /** Reflectance of the bare backing read the same way, band by band; absent when the film hides it fully. */
  readonly backing?: ArrayLike<number>;
  /** What to call the backing, such as "black" or "white". */
  readonly backingName?: string;
}

/** A film of known composition, as read: a drawdown, a step of a tint ladder, a masstone. */
export interface Sample {
  readonly name: string;
  /** Mass of each component, in grams or any other measure: only the shares matter. */
  readonly recipe: Grams;
  /** Dry film in µm, where it was measured. */
  readonly thickness?: number;
  readonly readings: readonly SampleReading[];
}
