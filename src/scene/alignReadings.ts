import { InputError } from "../core/InputError.js";
import { type Grid, sameGrid } from "../spectra/grid.js";
import { resampleSprague } from "../spectra/resample.js";
import type { Geometry } from "../surface/geometry.js";
import type { Reading } from "../surface/reading.js";

/**
 * Readings of one surface in the order of `geometries` on `grid`, end to end; a reading on another grid is
 * resampled (CIE 167 Sprague). Throws `unknown-geometry` when a geometry was not read.
 */
export function alignReadings(
  readings: readonly Reading[],
  geometries: readonly Geometry[],
  grid: Grid,
  path: string,
): Float64Array {
  const aligned = new Float64Array(geometries.length * grid.count);
  geometries.forEach((geometry, g) => {
    const index = readings.findIndex((candidate) => candidate.geometry === geometry);
    if (index < 0) {
      throw new InputError(
        "unknown-geometry",
        path,
        `there is no reading at "${geometry}", which a target has`,
      );
    }
    const reading = readings[index];
    const values = sameGrid(reading.grid, grid)
      ? reading.reflectance
      : resampleSprague({ grid: reading.grid, values: reading.reflectance }, grid, `${path}[${index}]`)
          .values;
    aligned.set(values as ArrayLike<number>, g * grid.count);
  });
  return aligned;
}
