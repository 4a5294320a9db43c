import { checkList, checkNumber, checkRecord, pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { checkGrid, type Grid } from "../spectra/grid.js";
import { checkGeometry, type Geometry } from "./geometry.js";

/** One spectrum at one geometry: reflectance factor as a fraction, band by band. */
export interface Reading {
  readonly geometry: Geometry;
  readonly grid: Grid;
  readonly reflectance: ArrayLike<number>;
}

/** Reflectance factors above this are per cent written where a fraction belongs; effect paints stay below it. */
const LARGEST_FRACTION = 2;

/** Throws `wrong-length`, `not-finite`, `out-of-range`, and `percent-not-fraction` for values above 2. */
export function checkReading(value: unknown, path: string): Reading {
  const record = checkRecord(value, path);
  const geometry = checkGeometry(record.geometry, pathTo(path, "geometry"));
  const grid = checkGrid(record.grid, pathTo(path, "grid"));
  const place = pathTo(path, "reflectance");
  const list = checkList(record.reflectance, place);
  if (list.length !== grid.count) {
    throw new InputError("wrong-length", place, `${list.length} values for a grid of ${grid.count} bands`);
  }
  for (let i = 0; i < list.length; i++) {
    const factor = checkNumber(list[i], `${place}[${i}]`, { min: 0 });
    if (factor > LARGEST_FRACTION) {
      throw new InputError(
        "percent-not-fraction",
        `${place}[${i}]`,
        `${factor} looks like per cent; reflectance is a fraction, 0.25 for 25 %`,
      );
    }
  }
  return { geometry, grid, reflectance: list as ArrayLike<number> };
}

/** Readings of one surface: at least one, no geometry twice. */
export function checkReadings(value: unknown, path: string): readonly Reading[] {
  const list = checkList(value, path, { min: 1 });
  const readings: Reading[] = [];
  for (let i = 0; i < list.length; i++) {
    const reading = checkReading(list[i], `${path}[${i}]`);
    if (readings.some(({ geometry }) => geometry === reading.geometry)) {
      throw new InputError("duplicate", `${path}[${i}].geometry`, `"${reading.geometry}" is read twice`);
    }
    readings.push(reading);
  }
  return readings;
}
