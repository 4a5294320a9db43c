import { extended } from "../core/shape/extended.js";
import { numbers } from "../core/shape/list.js";
import { map } from "../core/shape/map.js";
import { number } from "../core/shape/number.js";
import { oneOf } from "../core/shape/oneOf.js";
import { optional } from "../core/shape/optional.js";
import { type Noted, record } from "../core/shape/record.js";
import { text } from "../core/shape/text.js";
import { GEOMETRY, type Geometry } from "../surface/geometry.js";
import { ORIENTATION, type Orientation } from "./orientation.js";

/** What a toner is for. */
export const TONER_ROLES = ["white", "black", "chromatic", "binder", "flake", "pearl"] as const;

/** One of `TONER_ROLES`. */
export type TonerRole = (typeof TONER_ROLES)[number];

/** Whether a toner is of flake or pearl, which lies as it was sprayed. */
export function isEffect({ role }: { readonly role?: TonerRole }): boolean {
  return role === "flake" || role === "pearl";
}

/** Absorption or scattering per gram as poured, by geometry, on the grid of the toner set. */
export type SpectraByGeometry = { readonly [G in Geometry]?: ArrayLike<number> };

/** Where K and S of a toner come from, where not from films of it. */
export const PROVENANCES = ["generic", "tinted"] as const;

/** `generic`: from a pigment of that kind, not from this paint; `tinted`: the same, corrected by a tint card of this paint. */
export type Provenance = (typeof PROVENANCES)[number];

/** A paint to tint with: what one gram of it absorbs and scatters. */
export interface Toner extends Noted {
  /** Used in pots, limits and answers. */
  readonly id: string;
  /** For people; the id when absent. */
  readonly name?: string;
  /** What the toner is for; chromatic when absent. */
  readonly role?: TonerRole;
  /** Factor on K and S of the can in use; 1 when absent: the can is as characterised. */
  readonly strength?: number;
  /** Standard deviation of ln strength. */
  readonly strengthSd?: number;
  /** Of the dry paint, in any unit common to all: a dense paint makes a film of the same thickness richer. */
  readonly density?: number;
  /**
   * How far K and S are off on films that they were not fitted to, in units of what is usual; 1 when absent. Doubts
   * about the toner grow with it; `characterise` writes it where it leaves one out.
   */
  readonly misfit?: number;
  /** Absent of a toner that was characterised. A `generic` one corrects from a card, and predicts no pot. */
  readonly provenance?: Provenance;
  /**
   * Of flake and pearl: what spraying them steeper or flatter does, by geometry. `characterise` finds it from films of one
   * let-down sprayed several ways; without it nothing is said of spraying.
   */
  readonly orientation?: Orientation;
  /** Absorption per gram as poured, at every geometry in `surfaces`. */
  readonly k: SpectraByGeometry;
  /** Scattering per gram as poured, at every geometry in `surfaces`. */
  readonly s: SpectraByGeometry;
}

/** A toner to be characterised: all that is said of it but K, S and how far they are off. */
export interface TonerToFind extends Omit<Toner, "k" | "s" | "misfit" | "provenance" | "orientation"> {}

/** Factor on K and S of a can. */
export const STRENGTH = number({ min: 1e-3, max: 1e3 });
/** Standard deviation of ln strength. */
export const STRENGTH_SD = number({ min: 0, max: 10 });

/** Of a toner or of a whole set. */
export const MISFIT = number({ min: 0, max: 10 });

/** What is said of a toner besides its spectra. */
export const TONER_TO_FIND = record<TonerToFind>({
  id: text(),
  name: optional(text()),
  role: optional(oneOf(TONER_ROLES)),
  strength: optional(STRENGTH),
  strengthSd: optional(STRENGTH_SD),
  density: optional(number({ min: 0.01, max: 1e5 })),
});

/** Far beyond any paint in any unit in use; larger numbers are a slip that would drown the rest of the mix. */
const SPECTRA = map(numbers({ min: 0, max: 1e6 }), GEOMETRY);

/** A toner for itself; its set looks whether its spectra fit. */
export const TONER = extended<Toner, Toner, TonerToFind>(TONER_TO_FIND, {
  misfit: optional(MISFIT),
  provenance: optional(oneOf(PROVENANCES)),
  orientation: optional(ORIENTATION),
  k: SPECTRA,
  s: SPECTRA,
});
