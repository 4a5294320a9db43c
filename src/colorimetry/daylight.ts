import { checkNumber } from "../core/check.js";
import { GRID, type Grid, wavelengths } from "../spectra/grid.js";
import type { Spectrum } from "../spectra/spectrum.js";
import { DAYLIGHT_COMPONENTS } from "./data/daylightComponents.js";

/** Correlated colour temperatures in K between which CIE daylight is defined. */
export const DAYLIGHT_RANGE = { min: 4000, max: 25000 };

const COMPONENTS_START = 360;
const COMPONENTS_STEP = 10;
const EVERY_5_NM: Grid = { start: 360, step: 5, count: 95 };

/**
 * Chromaticity of CIE daylight of a correlated colour temperature T of 4000–25000 K for the 1931 observer:
 * x a cubic in 1/T on either side of 7000 K, y = −3x² + 2.870x − 0.275. Throws `out-of-range`. Source: CIE 15.
 */
export function daylightChromaticity(temperatureK: number, path = ""): readonly [x: number, y: number] {
  const t = 1000 / checkNumber(temperatureK, path, DAYLIGHT_RANGE);
  const x =
    temperatureK <= 7000
      ? ((-4.607 * t + 2.9678) * t + 0.09911) * t + 0.244063
      : ((-2.0064 * t + 1.9018) * t + 0.24748) * t + 0.23704;
  return [x, -3 * x * x + 2.87 * x - 0.275];
}

/**
 * Relative spectral power S₀ + M₁S₁ + M₂S₂ of CIE daylight, 100 at 560 nm, components linear between 10 nm.
 * M₁ and M₂ are rounded to three decimals, as CIE 15 says: so the published D tables and white points come out.
 * `grid` lies inside 360–830 nm and is every 5 nm unless given. Throws `out-of-range` and as `GRID`
 * does. Source: CIE 15.
 */
export function daylight(temperatureK: number, grid: Grid = EVERY_5_NM, path = ""): Spectrum {
  GRID.check(grid, "grid");
  const [x, y] = daylightChromaticity(temperatureK, path);
  const m = 0.0241 + 0.2562 * x - 0.7341 * y;
  const m1 = toThreeDecimals((-1.3515 - 1.7703 * x + 5.9114 * y) / m);
  const m2 = toThreeDecimals((0.03 - 31.4424 * x + 30.0717 * y) / m);
  const { s0, s1, s2 } = DAYLIGHT_COMPONENTS;
  const values = wavelengths(grid).map((nm) => {
    const position = (nm - COMPONENTS_START) / COMPONENTS_STEP;
    return linear(s0, position) + m1 * linear(s1, position) + m2 * linear(s2, position);
  });
  return { grid, values };
}

const toThreeDecimals = (value: number) => Math.round(1000 * value) / 1000;

function linear(values: readonly number[], position: number): number {
  const i = Math.min(Math.floor(position), values.length - 2);
  return values[i] + (position - i) * (values[i + 1] - values[i]);
}
