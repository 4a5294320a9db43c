import { InputError } from "../core/InputError.js";
import type { ForwardModel } from "../forward/forwardModel.js";
import { mix } from "../toners/coefficients.js";

/** Throws `no-pigment` where nothing of a mix scatters light at some band: it has no K/S there. */
export function checkScatters(model: ForwardModel, grams: Float64Array, path: string): void {
  const { size } = model.coefficients;
  const s = new Float64Array(size);
  mix(model.coefficients, grams, new Float64Array(size), s);
  const { start, step, count } = model.set.grid;
  s.forEach((scattering, b) => {
    if (scattering > 0) return;
    throw new InputError(
      "no-pigment",
      path,
      `nothing in it scatters light at ${start + (b % count) * step} nm`,
    );
  });
}
