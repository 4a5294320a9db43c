import { type Grid, sameGrid } from "../spectra/grid.js";
import type { SpectraByGeometry } from "./toner.js";
import type { TonerSet } from "./tonerSet.js";

/**
 * The toner set on a part of its own grid: same step, same wavelengths, nothing interpolated. `grid` must be such
 * a part (see `commonGrid`); the same set comes back when it is the whole.
 */
export function cropTonerSet(set: TonerSet, grid: Grid): TonerSet {
  if (sameGrid(set.grid, grid)) return set;
  const first = Math.round((grid.start - set.grid.start) / set.grid.step);
  const crop = (spectra: SpectraByGeometry): SpectraByGeometry =>
    Object.fromEntries(
      Object.entries(spectra).map(([geometry, values]) => [
        geometry,
        Array.prototype.slice.call(values, first, first + grid.count),
      ]),
    );
  return {
    ...set,
    grid,
    toners: set.toners.map((toner) => ({ ...toner, k: crop(toner.k), s: crop(toner.s) })),
  };
}
