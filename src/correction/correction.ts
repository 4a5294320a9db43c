import type { Lab } from "../colorimetry/lab.js";
import type { Warning } from "../prediction/warning.js";
import type { Geometry } from "../surface/geometry.js";
import type { Grams } from "../toners/pot.js";
import type { Certificate } from "./certificate/certificate.js";
import type { Forecast } from "./forecast/forecast.js";

/** Grams of one toner to pour, in the order of pouring. */
export interface Addition {
  readonly toner: string;
  /** In whole steps of the scale. */
  readonly grams: number;
  /** Before rounding to the scale. */
  readonly gramsUnrounded: number;
  /** Colour once this is poured after those before it, at the first geometry and light of the predictions. */
  readonly labAfter: Lab;
}

/** One target at one geometry under one light, before and after the additions. */
export interface TargetPrediction {
  readonly target: string;
  readonly geometry: Geometry;
  readonly illuminant: string;
  readonly deltaE00Before: number;
  readonly deltaE00After: number;
  /** What the role of the target and the weight of the light allow. */
  readonly deltaE00Allowed: number;
  readonly labTarget: Lab;
  readonly labBefore: Lab;
  readonly labAfter: Lab;
}

/**
 * Metamerism indices of the mix after the additions against one target, from one light to another; CIE 1976 units.
 * Source: ISO 18314-4.
 */
export interface TargetMetamerism {
  readonly target: string;
  readonly geometry: Geometry;
  readonly reference: string;
  readonly test: string;
  /** Corrected by differences of L*, a*, b*. */
  readonly additive: number;
  /** Corrected by ratios of X, Y, Z; null where the mix reflects nothing. */
  readonly multiplicative: number | null;
}

/** Grams of one toner, in whole steps of the scale. */
export interface Pour {
  readonly toner: string;
  readonly grams: number;
}

/** A correction that could be poured. */
export interface Choice {
  readonly additions: readonly Pour[];
  readonly pours: number;
  /** All that is poured. */
  readonly grams: number;
  /** √Σ w ΔE00² afterwards. */
  readonly weightedDeltaE00: number;
  readonly isWithinTolerance: boolean;
}

/** What holds the answer back where a match is out of reach. */
export type Obstacle =
  | { readonly kind: "too-much-in-pot"; readonly toner: string; readonly grams: number }
  | { readonly kind: "stock"; readonly toner: string }
  | { readonly kind: "room" }
  | { readonly kind: "pours" }
  | { readonly kind: "scale-step" }
  | { readonly kind: "toners" };

/** The least to pour off, all that is in the pot alike, so that additions to what is left match. */
export interface PourOff {
  /** Of the pot, 0…1. */
  readonly share: number;
  /** In whole steps of the scale. */
  readonly grams: number;
  readonly then: Choice;
}

/** A pot mixed from nothing. */
export interface NewPot {
  readonly grams: number;
  /** In whole steps of the scale. */
  readonly recipe: Grams;
  /** √Σ w ΔE00². */
  readonly weightedDeltaE00: number;
  readonly isWithinTolerance: boolean;
}

/** What else can be done where no additions to the pot match. */
export interface WayOut {
  /** Null when nothing short of a new pot helps, or not even that. */
  readonly pourOff: PourOff | null;
  /** The nearest that a new pot comes; null when there is nothing to mix it from. */
  readonly newPot: NewPot | null;
}

/** The same record whatever the status. */
export interface CorrectionRecord {
  readonly format: "masstone/correction";
  readonly version: 1;
  readonly additions: readonly Addition[];
  readonly potAfter: Grams;
  readonly potGramsAfter: number;
  readonly predictions: readonly TargetPrediction[];
  /** √Σ w ΔE00² over all predictions, before and after: the number that was made small. */
  readonly weightedDeltaE00: { readonly before: number; readonly after: number };
  /** Of every number of pours up to the one allowed the best correction found, fewest first. */
  readonly byPours: readonly Choice[];
  /** Per target, geometry and light other than the heaviest. */
  readonly metamerism: readonly TargetMetamerism[];
  /** Film build needed to hide, after ÷ before, at the first geometry; above 1 the mix hides less. */
  readonly hidingThicknessRatio: number;
  readonly obstacles: readonly Obstacle[];
  /** What is proved of the answer; null when not asked for, and where the readings can carry no answer. */
  readonly certificate: Certificate | null;
  /** Only where a match is out of reach; null when not asked for. */
  readonly wayOut: WayOut | null;
  readonly stopReason: string;
  readonly iterations: number;
  readonly warnings: readonly Warning[];
  /** Where it was asked for, and the readings can carry an answer. */
  readonly forecast?: Forecast;
}

/**
 * `corrected`: with these additions every target is within its tolerance. `good-enough`: it is already, add
 * nothing. `out-of-reach`: not with these toners, this pot and these limits; the additions are the best found.
 * `undetermined`: the readings or the solver cannot tell; see `stopReason` and the warnings.
 */
export type Correction = CorrectionRecord &
  (
    | { readonly status: "corrected" }
    | { readonly status: "good-enough" }
    | { readonly status: "out-of-reach" }
    | { readonly status: "undetermined" }
  );

/** The four ways a correction can end. */
export type CorrectionStatus = Correction["status"];
