import { createEvaluation, evaluate } from "../forward/evaluate.js";
import type { ForwardModel } from "../forward/forwardModel.js";
import type { UncertaintyMode } from "../toners/uncertainty.js";

/**
 * Standard deviations of L*, a*, b* of a mix, colour by colour as in `Evaluation`: half the difference between the
 * set changed by +1 and by −1 sd along each mode, squared and added up. The anchor of the model is held.
 */
export function labSd(
  model: ForwardModel,
  grams: ArrayLike<number>,
  modes: readonly UncertaintyMode[],
): Float64Array {
  const low = createEvaluation(model);
  const high = createEvaluation(model);
  const variance = new Float64Array(low.lab.length);
  for (const mode of modes) {
    evaluate(changedCoefficients(model, mode, -1), grams, low);
    evaluate(changedCoefficients(model, mode, 1), grams, high);
    for (let i = 0; i < variance.length; i++) variance[i] += ((high.lab[i] - low.lab[i]) / 2) ** 2;
  }
  return variance.map(Math.sqrt);
}

/** The model with every K and S moved along a mode by `sds` standard deviations. */
export function changedCoefficients(model: ForwardModel, mode: UncertaintyMode, sds: number): ForwardModel {
  const { coefficients, geometries, set } = model;
  const bands = set.grid.count;
  const moved = (key: "k" | "s"): Float64Array => {
    const values = coefficients[key].slice();
    set.toners.forEach(({ id }, j) => {
      geometries.forEach((geometry, g) => {
        const change = mode[id]?.[key][geometry];
        if (!change) return;
        const start = j * coefficients.size + g * bands;
        for (let b = 0; b < bands; b++) values[start + b] *= Math.exp(sds * change[b]);
      });
    });
    return values;
  };
  return { ...model, coefficients: { ...coefficients, k: moved("k"), s: moved("s") } };
}
