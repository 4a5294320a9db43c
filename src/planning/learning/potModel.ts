import type { SurfaceTerms } from "../../surface/saunderson.js";
import type { Coefficients } from "../../toners/coefficients.js";

/** What is believed of the cans: ln of strength over what the toner set says, in the order of its toners. */
export interface Belief {
  readonly mean: Float64Array;
  /** Row-major. */
  readonly covariance: Float64Array;
}

/** One card with what may be peculiar to it; every pattern is multiplied by a standard normal number of its own. */
export interface CardModel {
  readonly grams: Float64Array;
  readonly reflectance: Float64Array;
  /** Patterns in ln(K/S) and in reflectance. */
  readonly shapes: readonly Float64Array[];
  readonly offsets: readonly Float64Array[];
  /** Sd in grams of what was poured of each toner since the card before; 0 where nothing was. */
  readonly pourSd: Float64Array;
  /** `grams` of a toner, of which `poured` may in truth have been poured·e^(sd·u). */
  readonly misPour?: { readonly toner: number; readonly poured: number; readonly sd: number };
}

/** What all cards of a pot have in common. */
export interface PotModel {
  readonly coefficients: Coefficients;
  readonly surfaces: readonly SurfaceTerms[];
  /** Noise of the readings, band by band alike. */
  readonly readingSd: number;
  /** Patterns in ln(K/S), and in absorption that is no toner's. */
  readonly shapes: readonly Float64Array[];
  readonly strays: readonly Float64Array[];
  /** Patterns in ln K and in ln S of one toner: paint from its can is not quite what was characterised. */
  readonly tonerShapes: readonly {
    readonly toner: number;
    readonly of: "k" | "s";
    readonly shape: Float64Array;
  }[];
  /** White scatters less per gram where there is more of it: sd of ln strength from none of it to nothing else. */
  readonly crowding: { readonly whites: readonly number[]; readonly sd: number };
  /** Doubt in the surface, for each geometry: of k1, of k2 and of its rise from R∞ = 0 to 1. */
  readonly surfaceSds: readonly [k1: number, k2: number, rise: number];
}
