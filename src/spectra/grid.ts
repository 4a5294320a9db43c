import { checkInteger, checkKeys, checkNumber, checkRecord, pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";

/** Equally spaced wavelengths in nm: start, start + step, … (count of them). */
export interface Grid {
  readonly start: number;
  readonly step: number;
  readonly count: number;
}

/** The range of the CIE colour-matching functions; nothing outside it is seen. */
export const SHORTEST_NM = 360;
export const LONGEST_NM = 830;

/** What the trade's instruments give: 400–700 nm every 10 nm, 31 bands. */
export const DEFAULT_GRID: Grid = { start: 400, step: 10, count: 31 };

/** Instruments print wavelengths to 0.01 nm; a millionth of that is rounding. */
const SAME_NM = 1e-8;
const FINEST_STEP = 0.1;

/**
 * A grid of at least three wavelengths (what a quadratic needs), step at least 0.1 nm, all inside 360–830 nm.
 * Throws `missing`, `wrong-type`, `not-finite`, `out-of-range` and `unknown-key`.
 */
export function checkGrid(value: unknown, path: string): Grid {
  const record = checkRecord(value, path);
  checkKeys(record, path, ["start", "step", "count"]);
  const start = checkNumber(record.start, pathTo(path, "start"), { min: SHORTEST_NM, max: LONGEST_NM });
  const step = checkNumber(record.step, pathTo(path, "step"), { min: FINEST_STEP });
  const count = checkInteger(record.count, pathTo(path, "count"), { min: 3 });
  const grid = { start, step, count };
  if (gridEnd(grid) > LONGEST_NM + SAME_NM) {
    throw new InputError(
      "out-of-range",
      path,
      `the last wavelength is ${gridEnd(grid)} nm: at most ${LONGEST_NM}`,
    );
  }
  return grid;
}

/** The last wavelength in nm. Throws as `wavelengths` does. */
export function checkedGridEnd(grid: Grid): number {
  return gridEnd(checkGrid(grid, "grid"));
}

/** The last wavelength in nm of a grid that was looked at before. */
export function gridEnd({ start, step, count }: Grid): number {
  return start + step * (count - 1);
}

/** All wavelengths of the grid in nm. Throws `missing`, `not-finite`, `out-of-range` and the like. */
export function checkedWavelengths(grid: Grid): Float64Array {
  return wavelengths(checkGrid(grid, "grid"));
}

/** All wavelengths in nm of a grid that was looked at before. */
export function wavelengths({ start, step, count }: Grid): Float64Array {
  // A plain loop: `Float64Array.from` with a function takes several times as long, and weights need this a lot.
  const all = new Float64Array(count);
  for (let i = 0; i < count; i++) all[i] = start + step * i;
  return all;
}

/** Whether two grids have the same wavelengths, rounding apart. Throws as `wavelengths` does. */
export function checkedSameGrid(a: Grid, b: Grid): boolean {
  return sameGrid(checkGrid(a, "a"), checkGrid(b, "b"));
}

/** The same of grids that were looked at before. */
export function sameGrid(a: Grid, b: Grid): boolean {
  return (
    a.count === b.count &&
    Math.abs(a.start - b.start) <= SAME_NM &&
    Math.abs(gridEnd(a) - gridEnd(b)) <= SAME_NM
  );
}

/** Whether the range of `outer` holds the whole range of `inner`; the steps do not matter. Throws as `wavelengths` does. */
export function checkedCovers(outer: Grid, inner: Grid): boolean {
  return covers(checkGrid(outer, "outer"), checkGrid(inner, "inner"));
}

/** The same of grids that were looked at before. */
export function covers(outer: Grid, inner: Grid): boolean {
  return outer.start <= inner.start + SAME_NM && gridEnd(inner) <= gridEnd(outer) + SAME_NM;
}
