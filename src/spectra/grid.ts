import { InputError } from "../core/InputError.js";
import { number } from "../core/shape/number.js";
import { record } from "../core/shape/record.js";
import { rule } from "../core/shape/rule.js";

/** Equally spaced wavelengths in nm: start, start + step, … (count of them). */
export interface Grid {
  /** Shortest wavelength, nm. */
  readonly start: number;
  /** From one wavelength to the next, nm. */
  readonly step: number;
  /** How many wavelengths. */
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

/** A grid of at least three wavelengths (what a quadratic needs), step at least 0.1 nm, all inside 360–830 nm. */
export const GRID = rule(
  record<Grid>({
    start: number({ min: SHORTEST_NM, max: LONGEST_NM }),
    step: number({ min: FINEST_STEP }),
    count: number({ min: 3, whole: true }),
  }),
  endInSight,
);

function endInSight(grid: Grid, path: string): void {
  if (gridEnd(grid) <= LONGEST_NM + SAME_NM) return;
  const reason = `the last wavelength is ${gridEnd(grid)} nm: at most ${LONGEST_NM}`;
  throw new InputError("out-of-range", path, reason);
}

/** Refuses values that are not one for each wavelength of their grid. Throws `wrong-length`. */
export function checkBands(values: ArrayLike<number>, { count }: Grid, path: string): void {
  if (values.length === count) return;
  const reason = `${values.length} values for a grid of ${count} wavelengths`;
  throw new InputError("wrong-length", path, reason);
}

/** The last wavelength in nm. Throws as `wavelengths` does. */
export function checkedGridEnd(grid: Grid): number {
  return gridEnd(GRID.check(grid, "grid"));
}

/** The last wavelength in nm of a grid that was looked at before. */
export function gridEnd({ start, step, count }: Grid): number {
  return start + step * (count - 1);
}

/** All wavelengths of the grid in nm. Throws `missing`, `not-finite`, `out-of-range` and the like. */
export function checkedWavelengths(grid: Grid): Float64Array {
  return wavelengths(GRID.check(grid, "grid"));
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
  return sameGrid(GRID.check(a, "a"), GRID.check(b, "b"));
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
  return covers(GRID.check(outer, "outer"), GRID.check(inner, "inner"));
}

/** The same of grids that were looked at before. */
export function covers(outer: Grid, inner: Grid): boolean {
  return outer.start <= inner.start + SAME_NM && gridEnd(inner) <= gridEnd(outer) + SAME_NM;
}
