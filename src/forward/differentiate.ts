import { labByXyz } from "../colorimetry/lab.js";
import { xyzFromReflectance } from "../colorimetry/xyz.js";
import { attenuation } from "../optics/infiniteFilm.js";
import { measuredSlope } from "../surface/saunderson.js";
import type { Evaluation } from "./evaluate.js";
import { colourCount, type ForwardModel } from "./forwardModel.js";

/** Slopes of an evaluation with respect to the grams, toner-major: row j is toner j. */
export interface Gradient {
  /** ∂R/∂ΣgK and ∂R/∂ΣgS at `[band]`. */
  readonly byK: Float64Array;
  readonly byS: Float64Array;
  /** ∂R/∂g at `[j·size + band]`. */
  readonly reflectance: Float64Array;
  /** The same by toner and geometry: views, no copies. */
  readonly spectra: readonly (readonly Float64Array[])[];
  /** ∂(L*, a*, b*)/∂g at `[j·3·colours + 3·colour + axis]`. */
  readonly lab: Float64Array;
}

/** Room for a gradient, to be used again and again by a solver. */
export function createGradient(model: ForwardModel): Gradient {
  const { toners, size } = model.coefficients;
  const { count } = model.set.grid;
  const reflectance = new Float64Array(toners * size);
  return {
    byK: new Float64Array(size),
    byS: new Float64Array(size),
    reflectance,
    spectra: model.set.toners.map((_, j) =>
      model.geometries.map((_, g) => reflectance.subarray(j * size + g * count, j * size + (g + 1) * count)),
    ),
    lab: new Float64Array(toners * 3 * colourCount(model)),
  };
}

/**
 * At K = 0 the slope ∂R∞/∂K = −R∞/κ is infinite: the first trace of absorption darkens most. No paint is that
 * white, so κ is held at this share of S; above it (K/S ≥ 1.3e−9) the slopes are exact.
 */
const LEAST_ATTENUATION = 5e-5;

/**
 * ∂R/∂gⱼ = dRm/dR∞ · (∂R∞/∂K · scale·Kⱼ + ∂R∞/∂S · Sⱼ), then through the tristimulus weights and ∂Lab/∂XYZ.
 * `at` must hold the evaluation of the same model at the wanted grams; only the rows of `toners` are written.
 */
export function differentiate(
  model: ForwardModel,
  at: Evaluation,
  into: Gradient,
  toners: readonly number[],
): void {
  differentiateReflectance(model, at, into, toners);
  differentiateColours(model, at, into, toners);
}

function differentiateReflectance(
  { set, surfaces, anchor, coefficients }: ForwardModel,
  at: Evaluation,
  { byK, byS, reflectance }: Gradient,
  toners: readonly number[],
): void {
  const { size, k, s } = coefficients;
  const bands = set.grid.count;
  for (let g = 0; g < surfaces.length; g++) {
    const surface = surfaces[g];
    const end = (g + 1) * bands;
    for (let b = g * bands; b < end; b++) {
      const absorption = at.k[b];
      const scattering = at.s[b];
      const inside = at.internal[b];
      const kappa = Math.max(attenuation(absorption, scattering), LEAST_ATTENUATION * scattering);
      const outside = measuredSlope(inside, surface) / kappa;
      byK[b] = -outside * inside * anchor.scale[b];
      byS[b] = (outside * absorption) / (absorption + scattering + kappa);
    }
  }
  // Three bands at a time, as in `mix`.
  for (let first = 0; first < size; first += 3) {
    const b = Math.min(first, size - 3);
    const byK0 = byK[b];
    const byK1 = byK[b + 1];
    const byK2 = byK[b + 2];
    const byS0 = byS[b];
    const byS1 = byS[b + 1];
    const byS2 = byS[b + 2];
    for (let n = 0; n < toners.length; n++) {
      const i = toners[n] * size + b;
      reflectance[i] = byK0 * k[i] + byS0 * s[i];
      reflectance[i + 1] = byK1 * k[i + 1] + byS1 * s[i + 1];
      reflectance[i + 2] = byK2 * k[i + 2] + byS2 * s[i + 2];
    }
  }
}

/** XYZ is linear in R, so its slopes are the XYZ of the slopes. */
function differentiateColours(
  model: ForwardModel,
  { xyz }: Evaluation,
  { spectra, lab }: Gradient,
  toners: readonly number[],
): void {
  const width = 3 * colourCount(model);
  let place = 0;
  for (let g = 0; g < model.geometries.length; g++) {
    for (const { tristimulus } of model.lights) {
      const [byL, byA, byB] = labByXyz([xyz[place], xyz[place + 1], xyz[place + 2]], tristimulus.white);
      for (const j of toners) {
        const [dX, dY, dZ] = xyzFromReflectance(spectra[j][g], tristimulus);
        const row = j * width + place;
        lab[row] = byL[0] * dX + byL[1] * dY + byL[2] * dZ;
        lab[row + 1] = byA[0] * dX + byA[1] * dY + byA[2] * dZ;
        lab[row + 2] = byB[0] * dX + byB[1] * dY + byB[2] * dZ;
      }
      place += 3;
    }
  }
}
