import type { Explanation } from "../belief/fault.js";
import type { CardVerdictWord } from "../belief/judge.js";
import type { EyeGain } from "../belief/unknowns/instrument.js";
import type { Lab } from "../colorimetry/lab.js";
import type { Warning } from "../core/warning.js";
import type { Forecast } from "../forecast/forecast.js";
import type { CorrectionObjective } from "../problem/correctionObjective.js";
import type { SprayDiagnosis } from "../problem/spray/diagnoseSpray.js";
import type { ChosenBy } from "../problem/weighMix.js";
import type { SearchReport } from "../search/searchReport.js";
import type { Geometry } from "../surface/geometry.js";
import type { Grams } from "../toners/pot.js";
import type { MixMetamerism } from "./mixMetamerism.js";
import type { NextLook } from "./nextLook.js";

/** Grams of one toner to pour, in the order of pouring. */
export interface Addition {
  readonly toner: string;
  /** In whole steps of the scale, or drops. */
  readonly grams: number;
  /** Whole drops, of a toner that is dosed in drops; null of one that is weighed. */
  readonly drops: number | null;
  /** Before rounding to the scale. */
  readonly gramsUnrounded: number;
  /**
   * Colour once this is poured after those before it, at the first geometry and light of the predictions; of `respray` on a
   * card that is sprayed as the last one.
   */
  readonly labAfter: Lab;
  /** Where several angles are aimed at, the same at the one nearest the mirror's and at the one furthest from it. */
  readonly faceAndFlop?: { readonly face: Lab; readonly flop: Lab };
}

/** One target at one geometry under one light, before and after the additions. */
export interface TargetPrediction {
  readonly target: string;
  readonly geometry: Geometry;
  readonly illuminant: string;
  readonly deltaE00Before: number;
  readonly deltaE00After: number;
  /** What the role of the target and the weight of the light allow; Infinity (null in JSON) for a light of no weight. */
  readonly deltaE00Allowed: number;
  readonly labTarget: Lab;
  readonly labBefore: Lab;
  /** After the additions; of `respray` on a card that is sprayed so. */
  readonly labAfter: Lab;
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

/** How an alternative differs from the answer. */
export type AlternativeKind = "blend" | "fewer-pours" | "closer" | "less-paint" | "other-toners";

/**
 * Another correction. `blend`: pour nothing and blend, every target is within what a blend is allowed. `closer`: less left, for
 * more pours or more paint.
 */
export interface Alternative extends Choice {
  readonly kind: AlternativeKind;
  /** The toner that is left out, where the kind is `other-toners`. */
  readonly without?: string;
}

/** Toners that would have done the same as the one poured, and what decided. */
export interface Tie {
  readonly toner: string;
  readonly insteadOf: readonly string[];
  /** `scale`: a step of the others is too coarse. `order`: nothing but the order of their ids. */
  readonly decidedBy: "stock" | "grams" | "recipe" | "order" | "scale";
}

/** A toner that is not poured, and why. */
export interface UnusedToner {
  readonly toner: string;
  readonly reason:
    | "stock"
    | "room"
    | "no-effect"
    | "alike"
    | "wrong-way"
    | "little-gain"
    | "pours"
    | "scale-step";
  /** The poured toner that does the same, where `alike`. */
  readonly alike?: string;
  /** What one pour of it more would take off the score, before rounding. */
  readonly gainDeltaE00?: number;
}

/** What the same toners would reach on a scale ten times as fine. */
export interface FinerScale {
  readonly stepGrams: number;
  readonly weightedDeltaE00: number;
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

/** Whether the card can come from its pot; if not, no additions are computed. */
export interface CardOpinion {
  /** `open`: the work allowed did not suffice to tell. */
  readonly verdict: CardVerdictWord;
  /** How probable it is that nothing is wrong with the card and the pours before it. */
  readonly soundProbability: number;
  /** The likeliest first. */
  readonly explanations: readonly Explanation[];
}

/** What to expect of the next card, once these additions are poured. */
export interface Expectation {
  /** Probability that it is within tolerance of every target. */
  readonly withinProbability: number;
  /** ΔE00 of the target that is furthest off for what is allowed: as likely above as below, and below in nine of ten cases. */
  readonly deltaE00Median: number;
  readonly deltaE00Most: number;
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
  readonly spray?: SprayDiagnosis;
  readonly card: CardOpinion;
  /** What to expect of the next card; null where it cannot be told. */
  readonly expected: Expectation | null;
  /** What was made small; `minimax` too where least squares alone leaves a target out of tolerance. */
  readonly objective: CorrectionObjective;
  /** Of every number of pours up to the one allowed the best correction, fewest first; only what is better than fewer. */
  readonly byPours: readonly Choice[];
  /** What the additions were chosen by; null where nothing was searched for. */
  readonly chosenBy: ChosenBy | null;
  /** The closest match, where thrift chose another. */
  readonly closest: Choice | null;
  readonly ties: readonly Tie[];
  readonly alternatives: readonly Alternative[];
  readonly unused: readonly UnusedToner[];
  /** Null where nothing is poured, or nothing is rounded. */
  readonly finerScale: FinerScale | null;
  readonly search: SearchReport;
  /** Per target, geometry and light other than the heaviest. */
  readonly metamerism: readonly MixMetamerism[];
  /** Film build needed to hide, after ÷ before, at the first geometry; above 1 the mix hides less. */
  readonly hidingThicknessRatio: number;
  /** What holds the answer back where a match is out of reach. */
  readonly obstacles: readonly Obstacle[];
  /** Only where a match is out of reach; null when not asked for. */
  readonly wayOut: WayOut | null;
  readonly stopReason: string;
  readonly iterations: number;
  readonly warnings: readonly Warning[];
  /** By eye alone: what to hold beside what; null where no look would tell more. */
  readonly compareNext?: NextLook | null;
  /** By eye: what is now known of every observer that was named, for the `observers` of the next job. */
  readonly observers?: Readonly<Record<string, EyeGain>>;
  /** Where it was asked for, and the readings can carry an answer. */
  readonly forecast?: Forecast;
}

/**
 * `corrected`: with these additions every target is within its tolerance. `good-enough`: it is already, add
 * nothing. `out-of-reach`: the search found no additions that do it within the limits; these are the best found.
 * Whether there are none at all is proved by `certify` of `masstone/certificate`.
 * `by-eye`: a panel or the card was only looked at: the additions that are likeliest to be right; `expected` says how
 * likely a match is, and no more is claimed.
 * `respray`: flakes lie otherwise on the panels (`spray`): spray a card so, after the additions where there are any. `other-flake`: no tinting or spraying helps.
 * `undetermined`: the readings or the solver cannot tell, or the card cannot come from the pot; see `stopReason`
 * and the warnings.
 */
export type Correction = CorrectionRecord &
  (
    | { readonly status: "corrected" }
    | { readonly status: "good-enough" }
    | { readonly status: "out-of-reach" }
    | { readonly status: "by-eye" }
    | { readonly status: "respray" | "other-flake" }
    | { readonly status: "undetermined" }
  );

/** The ways a correction can end. */
export type CorrectionStatus = Correction["status"];
