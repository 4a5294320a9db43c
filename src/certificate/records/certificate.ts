import type { Geometry } from "../../surface/geometry.js";
import type { Proof } from "./proof.js";

/** What additions within the limits reach at best, as far as it is proved, and what the answer reaches. */
export interface Bound {
  /** No additions get below this. */
  readonly atLeast: number;
  readonly reached: number;
  /** reached − atLeast: what a better answer could gain at most. */
  readonly gap: number;
}

/** Wavelengths at which the best mix misses the target in the way that counts. */
export interface BindingBands {
  readonly target: string;
  readonly geometry: Geometry;
  /** nm */
  readonly from: number;
  readonly to: number;
  readonly mixIs: "too dark" | "too light";
  /** Toners in stock that would help there, but harm more elsewhere or find no room in the cup. */
  readonly toners: readonly string[];
}

/**
 * `matched`: every target is within its tolerance. `proved-out-of-reach`: no additions within stock and room bring every
 * target within its tolerance, whatever the number of pours and the scale. `not-proved`: none were found, and the bounds
 * say how far the proof came. `undetermined`: the readings carry no answer, so nothing is proved.
 */
export type CertificateVerdict = "matched" | "proved-out-of-reach" | "not-proved" | "undetermined";

/**
 * What is proved of a correction under the limits of the job; the number of pours and the scale's steps are left out of
 * account, which can only make the bounds lower. Checked by `verifyCertificate`.
 */
export interface Certificate {
  readonly format: "masstone/certificate";
  readonly version: 1;
  readonly verdict: CertificateVerdict;
  /** Where the colour of a target was inferred, not read: what is proved holds for the colours that are believed. */
  readonly given?: "inferred";
  /** √Σ w ΔE00², the number that is made small. */
  readonly weightedDeltaE00: Bound;
  /** The largest ΔE00 as a multiple of what is allowed to it; above 1 something is out of tolerance. */
  readonly worstOfAllowed: Bound;
  /** `outer-linearisation`: see `proofs`. `none`: the answer is so near that 0 is bound enough. */
  readonly method: "outer-linearisation" | "none";
  /** Where nothing matches: the wavelengths that stand in the way. An explanation, which no proof bears. */
  readonly binding: readonly BindingBands[];
  readonly proofs: readonly Proof[];
  /** Checksum of the rest, so that a number spoilt on the way is noticed even where the proof would bear it. */
  readonly checksum: string;
}
