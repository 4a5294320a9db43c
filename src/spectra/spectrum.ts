import { checkList, checkNumber, checkRecord, pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { numbers } from "../core/shape/list.js";
import { record } from "../core/shape/record.js";
import { rule } from "../core/shape/rule.js";
import { checkBands, GRID, type Grid, LONGEST_NM, SHORTEST_NM } from "./grid.js";

/** One value per wavelength of a uniform grid. */
export interface Spectrum {
  readonly grid: Grid;
  readonly values: ArrayLike<number>;
}

/** One value at one wavelength in nm, as it stands in a table. */
export interface SpectralPoint {
  readonly nm: number;
  readonly value: number;
}

/** Wavelength columns such as 380.00, 383.33, 386.67 are uniform but for their rounding. */
const WAVELENGTH_ROUNDING_NM = 0.01;

/** A spectrum given as `{ grid, values }`, as many values as the grid has wavelengths. */
export const SPECTRUM = rule(record<Spectrum>({ grid: GRID, values: numbers() }), ({ grid, values }, path) =>
  checkBands(values, grid, pathTo(path, "values")),
);

/**
 * Turns at least three wavelength/value pairs, shortest wavelength first, into a spectrum on a uniform grid;
 * wavelengths may be off by the rounding of a printed column (0.01 nm). Nothing is sorted or filled in.
 * Throws `wrong-length`, `too-large`, `not-finite`, `out-of-range` (outside 360–830 nm, or not rising),
 * `duplicate` and `gap` with the place of the offending point, such as `rows[3].nm`.
 */
export function uniformSpectrum(points: readonly SpectralPoint[], path: string): Spectrum {
  checkList(points, path, { min: 3 });
  points.forEach((point, i) => {
    if (typeof point !== "object" || point === null) checkRecord(point, `${path}[${i}]`);
    checkNumber(point.nm, `${path}[${i}].nm`, { min: SHORTEST_NM, max: LONGEST_NM });
    checkNumber(point.value, `${path}[${i}].value`);
    if (i > 0) checkRising(points[i - 1].nm, point.nm, `${path}[${i}].nm`);
  });
  const nm = points.map((point) => point.nm);
  return { grid: uniformGrid(nm, path), values: Float64Array.from(points, (point) => point.value) };
}

function checkRising(previous: number, nm: number, path: string): void {
  if (nm === previous) throw new InputError("duplicate", path, `${nm} nm is there twice`);
  if (nm < previous) {
    throw new InputError("out-of-range", path, `${nm} nm comes after ${previous} nm: wavelengths must rise`);
  }
}

function uniformGrid(nm: readonly number[], path: string): Grid {
  const count = nm.length;
  const start = nm[0];
  const step = (nm[count - 1] - start) / (count - 1);
  if (nm.some((value, i) => Math.abs(value - (start + step * i)) > WAVELENGTH_ROUNDING_NM)) {
    const widest = widestStep(nm);
    throw new InputError(
      "gap",
      `${path}[${widest}].nm`,
      `from ${nm[widest - 1]} to ${nm[widest]} nm is wider than the other steps: all must be equal`,
    );
  }
  return GRID.check({ start, step, count }, path);
}

/** The index of the wavelength behind the widest step. */
function widestStep(nm: readonly number[]): number {
  let widest = 1;
  for (let i = 2; i < nm.length; i++) {
    if (nm[i] - nm[i - 1] > nm[widest] - nm[widest - 1]) widest = i;
  }
  return widest;
}
