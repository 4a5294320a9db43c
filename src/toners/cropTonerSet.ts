import { type Grid, sameGrid } from "../spectra/grid.js";
import type { SpectraByGeometry } from "./toner.js";
import type { TonerSet } from "./tonerSet.js";
import type { LogChange } from "./uncertainty.js";

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
  const cropBoth = <T extends LogChange>(of: T): T => ({ ...of, k: crop(of.k), s: crop(of.s) });
  const { uncertainty } = set;
  return {
    ...set,
    grid,
    toners: set.toners.map(cropBoth),
    ...(uncertainty && {
      uncertainty: uncertainty.map((mode) =>
        Object.fromEntries(Object.entries(mode).map(([id, change]) => [id, cropBoth(change)])),
      ),
    }),
  };
}
