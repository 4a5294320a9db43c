import type { Random } from "../../src/numeric/probability/random.js";

/** A spectrophotometer: what it makes of a true reflectance. */
export interface Instrument {
  read(reflectance: readonly number[]): readonly number[];
}

/** How a good portable instrument errs; standard deviations, in reflectance (invented, of the usual size). */
export const INSTRUMENT_NOISE = Object.freeze({
  /** Of a band by itself: √(floor² + (relative·R)²), the mean of three readings. */
  floor: 0.0003,
  relative: 0.0006,
  /** Of the white calibration since the last one, for all bands alike, and its slope over the range. */
  drift: 0.001,
  tilt: 0.0005,
});

/** `scale` 0 is an instrument without error. Every reading drifts by itself: panel and card are read hours apart. */
export function createInstrument(random: Random, scale = 1): Instrument {
  const { floor, relative, drift, tilt } = INSTRUMENT_NOISE;
  return {
    read: (reflectance) => {
      const gain = scale * drift * random.normal();
      const slope = scale * tilt * random.normal();
      return reflectance.map((value, band) => {
        const calibrated = value * (1 + gain + slope * ((2 * band) / (reflectance.length - 1) - 1));
        const sd = scale * Math.hypot(floor, relative * value);
        return Math.max(0, calibrated + sd * random.normal());
      });
    },
  };
}
