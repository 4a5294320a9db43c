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
  /** `reflectance` geometry by geometry: views, no copies. */
  readonly spectra: readonly Float64Array[];
  readonly xyz: Float64Array;
  readonly lab: Float64Array;
}

/** Room for an evaluation, to be used again and again by a solver. */
export function createEvaluation(model: ForwardModel): Evaluation {
  const { size } = model.coefficients;
  const { count } = model.set.grid;
  const bands = () => new Float64Array(size);
  const colours = () => new Float64Array(3 * colourCount(model));
  const reflectance = bands();
  const spectra = model.geometries.map((_, g) => reflectance.subarray(g * count, (g + 1) * count));
  return { k: bands(), s: bands(), internal: bands(), reflectance, spectra, xyz: colours(), lab: colours() };
}

/**
 * Grams in the order of the toner set (≥ 0) → K̂ = scale·ΣgK + ghost, S = ΣgS → R∞ → Saunderson → XYZ → Lab,
 * written into `into`. A mix that neither absorbs nor scatters in some band gives NaN there.
 */
export function evaluate(model: ForwardModel, grams: ArrayLike<number>, into: Evaluation): void {
  const { surfaces } = model;
  const { scale, ghost, shift } = model.anchor;
  const { k, s, internal, reflectance } = into;
  mix(model.coefficients, grams, k, s);
  const bands = model.set.grid.count;
  for (let g = 0; g < surfaces.length; g++) {
    const surface = surfaces[g];
    const end = (g + 1) * bands;
    for (let b = g * bands; b < end; b++) {
      // Rounding may leave a ghost a hair too negative; absorption never is.
      const absorption = Math.max(0, scale[b] * k[b] + ghost[b]);
      const inside = reflectivity(absorption, s[b]);
      k[b] = absorption;
      internal[b] = inside;
      reflectance[b] = measuredReflectance(inside, surface) + shift[b];
    }
  }
  evaluateColours(model, into);
}

function evaluateColours({ lights }: ForwardModel, { spectra, xyz, lab }: Evaluation): void {
  let place = 0;
  for (const spectrum of spectra) {
    for (const { tristimulus } of lights) {
      const stimulus = xyzFromReflectance(spectrum, tristimulus);
      const colour = labFromXyz(stimulus, tristimulus.white);
      for (let axis = 0; axis < 3; axis++, place++) {
        xyz[place] = stimulus[axis];
        lab[place] = colour[axis];
      }
    }
  }
}
