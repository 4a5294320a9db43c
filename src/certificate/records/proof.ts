import type { Lab } from "../../colorimetry/lab.js";
import type { Xyz } from "../../colorimetry/xyz.js";
import type { Grams } from "../../toners/pot.js";

/**
 * `weighted`: √Σ w ΔE00² over all aims. `worst`: the largest ΔE00 as a multiple of what its aim allows; at most 1 where
 * everything matches.
 */
export type Measure = "weighted" | "worst";

/** A row of a proof and what it is multiplied with, ≥ 0. */
export type Multiplier = readonly [row: number, multiplier: number];

/** A range made narrower: what the rows say of one band when they are added up with these multipliers. */
export interface Tightening {
  /** K/S of the band, or its scattering over the mean of all bands; both relative to the reference mix's scattering. */
  readonly of: "ratio" | "scattering";
  /** Index over all geometries and bands. */
  readonly band: number;
  readonly end: "low" | "high";
  readonly value: number;
  readonly multipliers: readonly Multiplier[];
}

/** One case of a proof: ranges made narrower round by round, then the end, or two cases of which one must hold. */
export interface ProofCase {
  /** The rows of a round are written with the ranges that the round before left. */
  readonly rounds: readonly (readonly Tightening[])[];
  /** With these multipliers the rows contradict one another, or say that the measure is at least the proof's bound. */
  readonly end?: readonly Multiplier[];
  /** K/S of a band is at most `at`, or at least `at`. */
  readonly split?: {
    readonly band: number;
    readonly at: number;
    readonly low: ProofCase;
    readonly high: ProofCase;
  };
}

/** For each aim n·(Lab − Lab_aim) ≤ norm·ΔE00 as far as the level goes. */
export interface Direction {
  /** n for each aim; zeros where it plays no part. */
  readonly along: readonly Lab[];
  readonly norms: readonly number[];
}

/** X/Xn, Y/Yn, Z/Zn within the level of an aim. */
export interface ColourBox {
  readonly low: Xyz;
  readonly high: Xyz;
}

/**
 * That no additions have a measure below `bound`: a measure below `level` would put every colour near its aim, and from
 * that the rest follows. Rows of a case are numbered: the splits above it, six per aim (X ≤, X ≥, Y ≤, Y ≥, Z ≤, Z ≥), the
 * directions. docs/theory.md derives it; `verifyCertificate` checks it.
 */
export interface Proof {
  readonly measure: Measure;
  readonly level: number;
  readonly bound: number;
  /** Additions at which tangents touch; any will do, the best known make the tightest proof. */
  readonly reference: Grams;
  /** One per aim, in the order of the predictions; null for an aim that the proof leaves out. */
  readonly boxes: readonly (ColourBox | null)[];
  readonly directions: readonly Direction[];
  readonly root: ProofCase;
}
