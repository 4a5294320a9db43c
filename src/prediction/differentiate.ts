import { labByXyz } from "../colorimetry/lab.js";
import { attenuation } from "../optics/infiniteFilm.js";
import { measuredSlope } from "../surface/saunderson.js";
import type { Evaluation } from "./evaluate.js";
import { colourCount, type ForwardModel } from "./forwardModel.js";

/** Slopes of an evaluation with respect to the grams, toner-major: row j is toner j. */
export interface Gradient {
  /** ∂R/∂g at `[j·size + band]`. */
  readonly reflectance: Float64Array;
  /** ∂(L*, a*, b*)/∂g at `[j·3·colours + 3·colour + axis]`. */
  readonly lab: Float64Array;
}

export function createGradient(model: ForwardModel): Gradient {
  const { toners, size } = model.coefficients;
  return {
    reflectance: new Float64Array(toners * size),
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
  const { coefficients, anchor, surfaces } = model;
  const { size } = coefficients;
  const bands = model.set.grid.count;
  const byK = new Float64Array(size);
  const byS = new Float64Array(size);
  for (let b = 0; b < size; b++) {
    const k = at.k[b];
    const s = at.s[b];
    const kappa = Math.max(attenuation(k, s), LEAST_ATTENUATION * s);
    const outside = measuredSlope(at.internal[b], surfaces[(b / bands) | 0]) / kappa;
    byK[b] = -outside * at.internal[b] * anchor.scale[b];
    byS[b] = (outside * k) / (k + s + kappa);
  }
  for (const j of toners) {
    const row = j * size;
    for (let b = 0; b < size; b++) {
      into.reflectance[row + b] = byK[b] * coefficients.k[row + b] + byS[b] * coefficients.s[row + b];
    }
  }
  differentiateColours(model, at, into, toners);
}

function differentiateColours(
  model: ForwardModel,
  at: Evaluation,
  into: Gradient,
  toners: readonly number[],
): void {
  const { size } = model.coefficients;
  const bands = model.set.grid.count;
  const width = 3 * colourCount(model);
  const axes = [new Float64Array(bands), new Float64Array(bands), new Float64Array(bands)];
  for (let c = 0; c < width; c += 3) {
    const g = Math.floor(c / (3 * model.lights.length));
    const { tristimulus } = model.lights[(c / 3) % model.lights.length];
    const slopes = labByXyz([at.xyz[c], at.xyz[c + 1], at.xyz[c + 2]], tristimulus.white);
    for (let axis = 0; axis < 3; axis++) {
      const [byX, byY, byZ] = slopes[axis];
      const byBand = axes[axis];
      for (let b = 0; b < bands; b++) {
        byBand[b] = byX * tristimulus.x[b] + byY * tristimulus.y[b] + byZ * tristimulus.z[b];
      }
    }
    const [lightness, redGreen, yellowBlue] = axes;
    for (const j of toners) {
      const start = j * size + g * bands;
      let dL = 0;
      let da = 0;
      let db = 0;
      for (let b = 0; b < bands; b++) {
        const slope = into.reflectance[start + b];
        dL += slope * lightness[b];
        da += slope * redGreen[b];
        db += slope * yellowBlue[b];
      }
      const place = j * width + c;
      into.lab[place] = dL;
      into.lab[place + 1] = da;
      into.lab[place + 2] = db;
    }
  }
}
