import { InputError } from "../core/InputError.js";
import type { Warning } from "../core/warning.js";
import type { Grid } from "../spectra/grid.js";
import type { Geometry } from "../surface/geometry.js";
import type { Reading } from "../surface/reading.js";
import { cropTonerSet } from "../toners/cropTonerSet.js";
import { surfaceAt, type TonerSet } from "../toners/tonerSet.js";
import { alignReadings } from "./alignReadings.js";
import { commonGrid } from "./commonGrid.js";
import { rangeWarnings, resampledWarnings } from "./readingWarnings.js";

/** A surface that was read, and its place in the job. */
export interface ReadSurface {
  readonly readings: readonly Reading[];
  readonly path: string;
}

/** What was read, on the bands and at the geometries that toners and readings share. */
export interface Scene {
  /** On the common bands. */
  readonly toners: TonerSet;
  readonly geometries: readonly Geometry[];
  readonly grid: Grid;
  /** The readings of a surface, geometry after geometry. */
  readonly aligned: (surface: ReadSurface) => Float64Array;
  readonly warnings: readonly Warning[];
}

/**
 * Prepares surfaces once, for every verb: of the geometries of the toners those for which `isWanted`, on the bands that
 * all their readings share; nothing is extrapolated. Throws `unknown-geometry`, `outside-grid` with the place.
 */
export function createScene(
  set: TonerSet,
  surfaces: readonly ReadSurface[],
  isWanted: (geometry: Geometry) => boolean,
  path: string,
): Scene {
  const geometries = set.surfaces.map(({ geometry }) => geometry).filter(isWanted);
  if (geometries.length === 0) {
    throw new InputError(
      "unknown-geometry",
      path,
      "there is no geometry that the toners have and that was read",
    );
  }
  const used = surfaces.map(({ readings, path: place }) => ({
    readings: readings.filter(({ geometry }) => geometries.includes(geometry)),
    path: place,
  }));
  const grid = commonGrid(
    set.grid,
    used.flatMap(({ readings }) => readings),
    path,
  );
  return {
    toners: cropTonerSet(set, grid),
    geometries,
    grid,
    aligned: ({ readings, path: place }) => alignReadings(readings, geometries, grid, place),
    warnings: [
      ...rangeWarnings(grid),
      ...used.flatMap(({ readings, path: place }) => resampledWarnings(readings, grid, place)),
    ],
  };
}

/** Throws `unknown-geometry` where a surface was read at a geometry that the toners have not. */
export function checkGeometries(
  set: TonerSet,
  {
    readings,
    path,
  }: { readonly readings: readonly { readonly geometry: Geometry }[]; readonly path: string },
): void {
  readings.forEach(({ geometry }, i) => {
    surfaceAt(set, geometry, `${path}[${i}].geometry`);
  });
}
