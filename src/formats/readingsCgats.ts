import { sameGrid, wavelengths } from "../spectra/grid.js";
import { type CgatsTable, cgatsTables } from "./cgats.js";
import { DECLARED, type Declared } from "./declared.js";
import { NAMED_READINGS, type NamedReading, type ReadingsFile, readingsFile } from "./namedReading.js";
import { isKnownColumn, isValueColumn, readingsInTable } from "./readingTable.js";

/**
 * Readings from CGATS.17 (ISO 28178) text, of all tables that have spectral fields. MEASUREMENT_GEOMETRY,
 * SAMPLE_BACKING, SPECTRAL_NORM and APERTURE_MM are read; scale comes from SPECTRAL_DEC, SPECTRAL_PCT or
 * SPECTRAL_NORM, else as declared. Throws InputError with line and column.
 */
export function readReadingsCgats(text: string, declared: Declared = {}): ReadingsFile {
  const how = DECLARED.check(declared, "declared");
  return readingsFile(cgatsTables(text).map((table) => readTable(table, how)));
}

function readTable({ keywords, fields, sets }: CgatsTable, declared: Declared): ReadingsFile {
  if (!fields.some(({ text }) => isValueColumn(text))) {
    return { readings: [], leftOut: fields.map(({ text }) => text) };
  }
  // A keyword holds for every set: it is a column with the same value in all rows. "na" is the standard's "not known".
  const said = [...keywords].filter(([keyword, { text }]) => isKnownColumn(keyword) && text !== "na");
  const header = [...fields, ...said.map(([keyword, value]) => ({ ...value, text: keyword }))];
  const values = said.map(([, value]) => value);
  return readingsInTable({ header, rows: sets.map((set) => [...set, ...values]) }, declared);
}

/** CGATS.17 text of readings as fractions; each run of readings taken alike is a table. */
export function writeReadingsCgats(readings: readonly NamedReading[]): string {
  const tables: NamedReading[][] = [];
  for (const next of NAMED_READINGS.check(readings, "readings")) {
    const table = tables.at(-1);
    if (table && takenAlike(table[0], next)) table.push(next);
    else tables.push([next]);
  }
  return tables.map(tableText).join("\n");
}

function takenAlike(a: NamedReading, b: NamedReading): boolean {
  return (
    a.backing === b.backing &&
    a.apertureMillimetres === b.apertureMillimetres &&
    a.reading.geometry === b.reading.geometry &&
    sameGrid(a.reading.grid, b.reading.grid)
  );
}

function tableText(readings: readonly NamedReading[]): string {
  const [{ reading, backing, apertureMillimetres }] = readings;
  const bands = Array.from(wavelengths(reading.grid), (nm) => `SPECTRAL_DEC${nm}`);
  const fields = ["SAMPLE_ID", "STRING", ...bands];
  const set = ({ name, note = "", reading: { reflectance } }: NamedReading) =>
    [quoted(name), quoted(note), ...Array.from(reflectance)].join("\t");
  return [
    "CGATS.17",
    'ORIGINATOR "masstone"',
    `MEASUREMENT_GEOMETRY ${quoted(reading.geometry)}`,
    ...(backing === undefined ? [] : [`SAMPLE_BACKING ${quoted(backing)}`]),
    ...(apertureMillimetres === undefined
      ? []
      : ['KEYWORD "APERTURE_MM"', `APERTURE_MM "${apertureMillimetres}"`]),
    `NUMBER_OF_FIELDS ${fields.length}`,
    "BEGIN_DATA_FORMAT",
    fields.join("\t"),
    "END_DATA_FORMAT",
    `NUMBER_OF_SETS ${readings.length}`,
    "BEGIN_DATA",
    ...readings.map(set),
    "END_DATA",
    "",
  ].join("\n");
}

const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;
