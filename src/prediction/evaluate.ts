import { labFromXyz } from "../colorimetry/lab.js";
import { xyzFromReflectance } from "../colorimetry/xyz.js";
import { reflectivity } from "../optics/infiniteFilm.js";
import { measuredReflectance } from "../surface/saunderson.js";
import { mix } from "../toners/coefficients.js";
import { colourCount, type ForwardModel } from "./forwardModel.js";

/** The model at one mix. Bands run over all geometries; colour c = geometry·lights + light has 3 entries. */
export interface Evaluation {
  /** Absorption (anchored) and scattering of the mix. */
  readonly k: Float64Array;
  readonly s: Float64Array;
  /** Reflectance inside the film and as measured. */
  readonly internal: Float64Array;
  readonly reflectance: Float64Array;
  readonly xyz: Float64Array;
  readonly lab: Float64Array;
}

/** Room for an evaluation, to be used again and again by a solver. */
export function createEvaluation(model: ForwardModel): Evaluation {
  const { size } = model.coefficients;
  const bands = () => new Float64Array(size);
  const colours = () => new Float64Array(3 * colourCount(model));
  return { k: bands(), s: bands(), internal: bands(), reflectance: bands(), xyz: colours(), lab: colours() };
}

/**
 * Grams in the order of the toner set (≥ 0) → K̂ = scale·ΣgK + ghost, S = ΣgS → R∞ → Saunderson → XYZ → Lab,
 * written into `into`. A mix that neither absorbs nor scatters in some band gives NaN there: see `checkColoured`.
 */
export function evaluate(model: ForwardModel, grams: ArrayLike<number>, into: Evaluation): void {
  const { anchor, surfaces, coefficients } = model;
  const { k, s, internal, reflectance } = into;
  mix(coefficients, grams, k, s);
  const bands = model.set.grid.count;
  for (let g = 0; g < surfaces.length; g++) {
    const surface = surfaces[g];
    for (let b = g * bands; b < (g + 1) * bands; b++) {
      // Rounding may leave a ghost a hair too negative; absorption never is.
      k[b] = Math.max(0, anchor.scale[b] * k[b] + anchor.ghost[b]);
      internal[b] = reflectivity(k[b], s[b]);
      reflectance[b] = measuredReflectance(internal[b], surface) + anchor.shift[b];
    }
  }
  colours(model, reflectance, into);
}

/** XYZ and Lab of a measured reflectance laid out like an evaluation's. */
export function colours(
  model: ForwardModel,
  reflectance: Float64Array,
  into: Pick<Evaluation, "xyz" | "lab">,
): void {
  const bands = model.set.grid.count;
  let c = 0;
  for (let g = 0; g < model.geometries.length; g++) {
    const spectrum = reflectance.subarray(g * bands, (g + 1) * bands);
    for (const { tristimulus } of model.lights) {
      const xyz = xyzFromReflectance(spectrum, tristimulus);
      into.xyz.set(xyz, c);
      into.lab.set(labFromXyz(xyz, tristimulus.white), c);
      c += 3;
    }
  }
}
