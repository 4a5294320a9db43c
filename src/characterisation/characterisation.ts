import type { Warning } from "../core/warning.js";
import type { Geometry } from "../surface/geometry.js";
import type { TonerSet } from "../toners/tonerSet.js";
import type { SurfaceConstant } from "./characterisationOptions.js";

/** How the toners were found: what was measured decides. */
export type CharacterisationMethod = "two-backings" | "masstone-and-tint" | "ladders" | "joint";

/** Unit of K and S: relative to the S of a reference toner, per film as drawn down, or per µm of dry film. */
export type CharacterisationBasis = "relative" | "per-film" | "per-micrometre";

/** A value with the standard deviation of its logarithm. */
export interface Estimate {
  readonly value: number;
  readonly sdOfLog: number;
}

/** One reading against what the characterised toners say of it. */
export interface ReadingQuality {
  readonly geometry: Geometry;
  /** "opaque" where the film hides. */
  readonly backing: string;
  readonly measured: readonly number[];
  readonly predicted: readonly number[];
  readonly deltaE00: number;
  /** The same with this sample left out of the fit, where that was asked for. */
  readonly deltaE00LeftOut?: number;
}

/** One sample against what the toners say of it. */
export interface SampleQuality {
  readonly name: string;
  readonly readings: readonly ReadingQuality[];
  /** Film thickness relative to the mean film of the fit (or µm where measured). */
  readonly thickness?: Estimate;
  /** Why this sample does not fit with the others; it was used all the same. */
  readonly outlier?: string;
}

/** Why K or S of a toner cannot be told at a band. */
export type NotIdentifiable =
  | "hides fully"
  | "too dark"
  | "too few samples"
  | "does not scatter"
  | "does not absorb";

/** A constant of a surface fitted along, and whether the readings could tell it. */
export interface SurfaceEstimate {
  readonly geometry: Geometry;
  readonly what: SurfaceConstant;
  readonly value: number;
  readonly sd: number;
  /** Sd at most half of that of the prior: the readings said more than was assumed. */
  readonly identifiable: boolean;
}

/** What is known of a toner at a geometry, band by band. */
export interface TonerQuality {
  readonly id: string;
  readonly geometry: Geometry;
  /** Standard deviations of ln K and ln S by band; Infinity where nothing is known. */
  readonly sdOfLogK: readonly number[];
  readonly sdOfLogS: readonly number[];
  readonly notIdentifiable: readonly {
    readonly what: "k" | "s";
    readonly wavelengths: readonly number[];
    readonly reason: NotIdentifiable;
  }[];
}

/** A drawdown worth making next, and by what factor it would shrink the uncertainty. */
export interface NextMeasurement {
  readonly recipe: Readonly<Record<string, number>>;
  readonly backing: "opaque" | "black and white";
  /** Mean sd of ln K and ln S afterwards ÷ now. */
  readonly shrinksTo: number;
}

/** The answer of `characterise`, the same record for every method. */
export interface Characterisation {
  readonly format: "masstone/characterisation";
  readonly version: 1;
  readonly method: CharacterisationMethod;
  readonly basis: CharacterisationBasis;
  /** K, S per unit of mass, surfaces as given or fitted, and the uncertainty of all of them together. */
  readonly toners: TonerSet;
  readonly quality: readonly TonerQuality[];
  readonly samples: readonly SampleQuality[];
  /** Of the scaled Jacobian at the answer. */
  readonly rank: number;
  readonly unknowns: number;
  readonly condition: number;
  readonly stopReason: string;
  readonly iterations: number;
  /** What was fitted of the surfaces. */
  readonly surfaceEstimates?: readonly SurfaceEstimate[];
  /** Density of the toners against the reference, where it was fitted. */
  readonly densities?: Readonly<Record<string, Estimate>>;
  /** Residuals of reflectance ÷ the sd that was stated; all intervals are scaled by it. Absent: too few to tell. */
  readonly noiseScale?: number;
  /** Of every candidate, the one that says most first. */
  readonly nextMeasurements: readonly NextMeasurement[];
  readonly warnings: readonly Warning[];
}
