import type { Geometry } from "../surface/geometry.js";

/**
 * Metamerism indices of the mix after the additions against one target, from one light to another; CIE 1976 units.
 * Source: ISO 18314-4.
 */
export interface MixMetamerism {
  readonly target: string;
  readonly geometry: Geometry;
  readonly reference: string;
  readonly test: string;
  /** Corrected by differences of L*, a*, b*. */
  readonly additive: number;
  /** Corrected by ratios of X, Y, Z; null where the mix reflects nothing. */
  readonly multiplicative: number | null;
}
