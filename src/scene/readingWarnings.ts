import type { Warning } from "../core/warning.js";
import { type Grid, gridEnd, sameGrid } from "../spectra/grid.js";
import { wavelengthsText } from "../spectra/wavelengthRanges.js";
import type { Reading } from "../surface/reading.js";

/** Said when readings were carried onto the grid of the model, which invents a little between their bands. */
export function resampledWarnings(
  readings: readonly Reading[],
  grid: Grid,
  path: string,
): readonly Warning[] {
  return readings.flatMap((reading, i) => {
    const { start, step } = reading.grid;
    const phase = (grid.start - start) / step;
    const isSubset =
      sameGrid(reading.grid, grid) || (step === grid.step && Math.abs(phase - Math.round(phase)) < 1e-9);
    if (isSubset) return [];
    const message = `read every ${step} nm from ${start} nm, interpolated onto the toners' grid (${grid.step} nm from ${grid.start} nm)`;
    return [{ code: "resampled", message, path: `${path}[${i}]` } as const];
  });
}

/** Said when the bands in common stop short of 400–700 nm: the rest is folded into the end bands (ASTM E308). */
export function rangeWarnings(grid: Grid): readonly Warning[] {
  if (grid.start <= 400 && gridEnd(grid) >= 700) return [];
  const message = `colour is computed from ${grid.start}–${gridEnd(grid)} nm alone; 400–700 nm is the least that CIE 15 recommends`;
  return [{ code: "narrow-range", message }];
}

/** Said of bands at or under the surface's own reflection, or whiter than white: there K/S is a bound, not a value. */
export function censoredWarnings(bands: readonly number[], grid: Grid, path: string): readonly Warning[] {
  if (bands.length === 0) return [];
  const wavelengths = bands.map((band) => grid.start + band * grid.step);
  const what = bands.length === 1 ? "one band lies" : `${bands.length} bands lie`;
  const message = `${what} at or under the reflection of the surface itself, or above white (${wavelengthsText(wavelengths, grid.step)}): how much pigment is there cannot be told from them`;
  return [{ code: "censored-bands", message, path, wavelengths }];
}
