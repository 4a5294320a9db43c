import type { Light } from "./film.js";
import type { SeenComparison } from "./operators/comparisonObservation.js";
import type { SeenColour } from "./prior.js";

/** A panel that was seen otherwise than by its spectra alone, and what is believed of its paint beforehand. */
export interface SeenPanel {
  /** Grams of every toner that it is likeliest to be like. */
  readonly grams: Float64Array;
  /** Sd of ln of what it has of every toner, and of its own ln(K/S), a rough curve. */
  readonly tonerSds: Float64Array;
  readonly curveSd: number;
  /** Spectra, by the index of their geometry in the model. */
  readonly spectra: readonly { readonly geometry: number; readonly reflectance: Float64Array }[];
  readonly colours: readonly SeenColour[];
  readonly comparisons: readonly SeenComparison[];
  /** What light has done to it, and how that differs from panel to panel; grams are then those of the fresh formula. */
  readonly light?: LightOnPanel;
}

/** Light on one panel: sd of ln of its dose, and of how unevenly it took each toner. */
export interface LightOnPanel extends Light {
  readonly doseSd: number;
  readonly unevenSd: number;
}
