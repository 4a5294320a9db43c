import type { ForwardModel } from "../../forward/forwardModel.js";
import { tilted } from "../../toners/orientation.js";

/**
 * The tied model with flakes that lie steeper than on its card by `more` (ln width of tilts); `card` is the card's
 * own state.
 */
export function withTilt(model: ForwardModel, card: number, more: number): ForwardModel {
  if (more === 0) return model;
  const { coefficients, orientation, geometries } = model;
  const { size } = coefficients;
  const bands = size / geometries.length;
  const s = coefficients.s.map((value, i) => {
    const curve = orientation[Math.floor(i / size)]?.[Math.floor((i % size) / bands)];
    return curve ? value * Math.exp(tilted(curve, card + more) - tilted(curve, card)) : value;
  });
  return { ...model, coefficients: { ...coefficients, s } };
}
