import { illuminantSpectrum, standardObserver } from "masstone/colorimetry";
import { resampleLagrange, resampleSprague } from "masstone/spectra";

/**
 * Tristimulus weights from what they mean: the weights of a band are X, Y, Z of a reflectance that is 1 there and 0
 * at all others (the end bands holding on to the ends of the visible range), summed over the wavelengths of the lamp.
 */
export function plainWeights({ grid, illuminant, observer }) {
  const light = illuminantSpectrum(illuminant);
  const eye = standardObserver(observer);
  const matching = [eye.x, eye.y, eye.z].map((values) =>
    Array.from(resampleSprague({ grid: eye.grid, values }, light.grid).values),
  );
  const power = Array.from(light.values);
  const before = Math.floor((grid.start - eye.grid.start) / grid.step);
  const whole = { start: grid.start - before * grid.step, step: grid.step, count: 0 };
  whole.count = Math.floor((830 - whole.start) / grid.step) + 1;

  const sums = Array.from({ length: grid.count }, (_, band) => {
    const values = Array.from({ length: whole.count }, (_, i) =>
      Math.min(Math.max(i - before, 0), grid.count - 1) === band ? 1 : 0,
    );
    const reflectance = Array.from(resampleLagrange({ grid: whole, values }, light.grid).values);
    return matching.map((curve) => reflectance.reduce((sum, r, i) => sum + r * power[i] * curve[i], 0));
  });
  const luminance = sums.reduce((total, [, y]) => total + y, 0);
  const [x, y, z] = [0, 1, 2].map((axis) => sums.map((sum) => (100 * sum[axis]) / luminance));
  return { x, y, z };
}
