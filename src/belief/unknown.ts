import type { Repeated } from "../toners/learntStrengths.js";
import type { Film } from "./film.js";

/** Whose an unknown is: it lives as long as its owner does. */
export type Owner =
  | "can"
  | "toner"
  | "pot"
  | "surface"
  | "film"
  | "pour"
  | "panel"
  | "instrument"
  | "observer";

/**
 * What an unknown moves: ln strength, ln K or ln S of a toner; of a film ln(K/S), reflectance, the share of its
 * reflectance by which that is off; of the surface k2 and the rise of k2 from R∞ = 0 to 1; the ln width of the tilts of
 * all flakes in a film; of a panel ln of what light took of a toner over its median, and the yellowing x that adds
 * |x| as often as a half-normal law has it.
 */
export type Field =
  | "strength"
  | "k"
  | "s"
  | "ratio"
  | "offset"
  | "gain"
  | "k2"
  | "rise"
  | "flakeTilt"
  | "loss"
  | "yellow";

/** Whether a field has a value for every toner. */
export function isOfToner(field: Field): boolean {
  return field === "strength" || field === "k" || field === "s" || field === "loss";
}

/** What one standard deviation of an unknown does to a film: `shape` times `share(film)` in one field. */
export interface Effect {
  readonly field: Field;
  /** Index into the toner set, of `strength`, `k` and `s`. */
  readonly toner: number;
  /** First band of the shape, counted over all geometries. */
  readonly from: number;
  readonly shape: Float64Array;
  /** Its share depends on the grams of a film, not on its place and kin alone; then `shape` is a level over all bands. */
  readonly isOfGrams?: boolean;
  /** 0 where the unknown has no part in the film. */
  share(film: Film): number;
}

/** A standard normal number that the belief is about, and all that it moves. */
export interface Unknown {
  readonly owner: Owner;
  /** What of a film it is one of: its sd can be learnt from how far films differ. */
  readonly repeats?: Repeated;
  readonly effects: readonly Effect[];
}
