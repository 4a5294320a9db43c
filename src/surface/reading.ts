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

/**
 * Reflectance factors above these are per cent written where a fraction belongs. Close to the specular angle flake
 * is brighter than any white (a bright silver read 15° off passes 2; from memory), elsewhere no paint comes near 2.
 */
const LARGEST_FRACTION = 2;
const LARGEST_NEAR_SPECULAR = 20;
const NEAR_SPECULAR: readonly Geometry[] = ["45as-15", "45as15", "45as25"];

/** Throws `wrong-length`, `not-finite`, `out-of-range`, and `percent-not-fraction` for values no paint gives. */
export function checkReading(value: unknown, path: string): Reading {
  const record = checkRecord(value, path);
  const geometry = checkGeometry(record.geometry, pathTo(path, "geometry"));
  const grid = checkGrid(record.grid, pathTo(path, "grid"));
  const place = pathTo(path, "reflectance");
  const list = checkList(record.reflectance, place);
  if (list.length !== grid.count) {
    throw new InputError("wrong-length", place, `${list.length} values for a grid of ${grid.count} bands`);
  }
  const largest = NEAR_SPECULAR.includes(geometry) ? LARGEST_NEAR_SPECULAR : LARGEST_FRACTION;
  for (let i = 0; i < list.length; i++) {
    const factor = checkNumber(list[i], `${place}[${i}]`, { min: 0 });
    if (factor > largest) {
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
