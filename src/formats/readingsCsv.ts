import { InputError } from "../core/InputError.js";
import { sameGrid, wavelengths } from "../spectra/grid.js";
import type { Cell } from "./cell.js";
import { csvRows, csvText, type Separator } from "./csv.js";
import { DECLARED, type Declared } from "./declared.js";
import { NAMED_READINGS, type NamedReading, type ReadingsFile, readingsFile } from "./namedReading.js";
import { isValueColumn, readingsInTable } from "./readingTable.js";

const SEPARATORS: readonly Separator[] = ["\t", ";", ","];

/**
 * Readings from CSV text: a header with wavelengths (or with L*, a*, b* alone: colours), then one reading per row; cells between commas, semicolons or
 * tabs, decimals after a point or a comma. Columns beside the spectrum: name, geometry, scale, backing, aperture mm,
 * note. Throws InputError with line and column.
 */
export function readReadingsCsv(text: string, declared: Declared = {}): ReadingsFile {
  const how = DECLARED.check(declared, "declared");
  const [header, ...rows] = csvRows(text, separatorOf);
  return readingsFile([readingsInTable({ header, rows }, how)]);
}

/** CSV text of readings on one grid, as fractions. Throws `outside-grid` where grids differ. */
export function writeReadingsCsv(readings: readonly NamedReading[]): string {
  const list = NAMED_READINGS.check(readings, "readings");
  const { grid } = list[0].reading;
  list.forEach(({ reading }, i) => {
    if (sameGrid(reading.grid, grid)) return;
    const reason = "not the wavelengths of the first reading; a CSV file has one grid";
    throw new InputError("outside-grid", `readings[${i}].reading.grid`, reason);
  });
  const header = ["name", "geometry", "scale", "backing", "aperture mm", "note", ...wavelengths(grid)];
  const rows = list.map(({ name, reading, backing = "", apertureMillimetres = "", note = "" }) => {
    const { geometry, reflectance } = reading;
    return [name, geometry, "fraction", backing, apertureMillimetres, note, ...Array.from(reflectance)];
  });
  return csvText([header, ...rows]);
}

/** The separator that gives the header most wavelengths, or L*, a*, b*. */
function separatorOf(header: Cell): Separator {
  const unquoted = header.text.replaceAll(/"[^"]*"/g, "");
  const bands = SEPARATORS.map(
    (separator) => unquoted.split(separator).filter((name) => isValueColumn(name.trim())).length,
  );
  return SEPARATORS[bands.indexOf(Math.max(...bands))];
}
