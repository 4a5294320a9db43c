import type { Geometry } from "../surface/geometry.js";

/** What may have gone wrong with a card or the pours before it; `grams` are what was too much (negative: too little). */
export type Fault =
  | { readonly kind: "tenfold"; readonly toner: string; readonly noted: number; readonly grams: number }
  | { readonly kind: "mis-pour"; readonly toner: string; readonly noted: number; readonly grams: number }
  | { readonly kind: "not-poured"; readonly toner: string; readonly grams: number }
  | { readonly kind: "wrong-toner"; readonly toner: string; readonly poured: string; readonly grams: number }
  | { readonly kind: "swapped-card"; readonly card: string }
  | { readonly kind: "spike"; readonly geometry: Geometry; readonly wavelength: number }
  | { readonly kind: "offset"; readonly geometry: Geometry }
  | { readonly kind: "other" };

/** An explanation of a card and how probable it is, given the card. */
export interface Explanation {
  readonly fault: Fault;
  readonly probability: number;
}
