import type { ObserverId } from "../colorimetry/observer.js";
import { InputError } from "../core/InputError.js";
import { COLOUR_READING } from "../scene/readings/colourReading.js";
import { uniformSpectrum } from "../spectra/spectrum.js";
import { atCells, type Cell, numberIn, placeOf } from "./cell.js";
import { type Declared, geometryOf, type Scale, scaleOf } from "./declared.js";
import { NAMED_READING, type NamedReading, type ReadingsFile } from "./namedReading.js";

/** One reading per row, one band per column or L*, a*, b* alone, other columns known by their names; no row is longer than the header. */
export interface ReadingTable {
  readonly header: readonly Cell[];
  readonly rows: readonly (readonly Cell[])[];
}

/** The names of columns that are read, without case, spaces and underscores; the first that is there counts. */
const COLUMNS = Object.freeze({
  name: ["name", "samplename", "sampleid", "sample", "id"],
  geometry: ["geometry", "measurementgeometry"],
  scale: ["scale", "spectralnorm"],
  backing: ["backing", "samplebacking"],
  aperture: ["aperturemm"],
  note: ["note", "string"],
  illuminant: ["illuminant", "illuminationname"],
  observer: ["observer", "observerangle"],
});

/** Columns of CIELAB by the names of ISO 28178 (CGATS), or as they are printed. */
const LAB = [
  ["l*", "labl"],
  ["a*", "laba"],
  ["b*", "labb"],
] as const;

/** A wavelength with what writers put around it: `400`, `400 nm`, `SPECTRAL_NM400`, `SPECTRAL_PCT_400`, `R_400`, … */
const BAND = /^(?:SPECTRAL_?|SPEC_?|R_?)?(?:(NM|DEC|PCT)_?)?(\d{3}(?:[.,]\d+)?)(?: ?nm)?$/i;
/** Or wavelength and value in columns of their own, in turn. */
const WAVELENGTH_COLUMN = /^SPECTRAL_NM$/i;
const VALUE_COLUMN = /^SPECTRAL_(DEC|PCT)$/i;

interface Band {
  readonly column: number;
  /** The wavelength, or the column in which it stands. */
  readonly nm: Cell | number;
  readonly scale?: Scale;
}

const plainName = (text: string): string => text.toLowerCase().replaceAll(/[\s_]/g, "");

/** Whether a column or keyword of this name says something of a reading. */
export function isKnownColumn(name: string): boolean {
  return Object.values(COLUMNS).some((names) => names.includes(plainName(name)));
}

/** Whether the column of this name holds a band of a spectrum. */
function isBandColumn(name: string): boolean {
  return BAND.test(name) || VALUE_COLUMN.test(name);
}

/** Whether the column of this name holds what a table is read for: a band of a spectrum, or one of L*, a*, b*. */
export function isValueColumn(name: string): boolean {
  return isBandColumn(name) || LAB.some((names) => names.some((known) => known === plainName(name)));
}

/**
 * The readings in a table and the columns left out. Throws `missing`, `gap`, `unknown-geometry`, `wrong-type`,
 * `not-finite`, `percent-not-fraction` and the like, with line and column.
 */
export function readingsInTable({ header, rows }: ReadingTable, declared: Declared): ReadingsFile {
  const names = header.map(({ text }) => plainName(text));
  const columnOf = (known: readonly string[]) =>
    known.map((name) => names.indexOf(name)).find((column) => column >= 0) ?? -1;
  const labs = LAB.map(columnOf);
  if (labs.some((column) => column >= 0) && !header.some(({ text }) => isBandColumn(text))) {
    return coloursInTable({ header, rows }, declared, { labs, columnOf });
  }
  const bands = bandsOf(header);
  const [name, geometry, scale, backing, aperture, note] = [
    COLUMNS.name,
    COLUMNS.geometry,
    COLUMNS.scale,
    COLUMNS.backing,
    COLUMNS.aperture,
    COLUMNS.note,
  ].map(columnOf);
  const used = [name, geometry, scale, backing, aperture, note, ...bands.flatMap(columnsOfBand)];

  const readRow = (row: readonly Cell[], index: number): NamedReading => {
    const said = (column: number) => (row[column]?.text ? row[column] : undefined);
    const place = row[0];
    const waves = bands.map(({ nm }) => (typeof nm === "number" ? row[nm] : nm));
    const cells = bands.map(({ column }) => row[column]);
    const points = bands.map((band, i) => {
      const nm = numberIn(waves[i], "wavelength");
      const inHundredths = (band.scale ?? scaleOf(said(scale), declared, place)) === "percent";
      return { nm, value: numberIn(cells[i], `${nm} nm`) / (inHundredths ? 100 : 1) };
    });
    const { grid, values } = atCells(waves, place, () => uniformSpectrum(points, ""));
    const [on, across, noted] = [said(backing), said(aperture), said(note)];
    const reading = {
      name: said(name)?.text ?? `reading ${index + 1}`,
      reading: { geometry: geometryOf(said(geometry), declared, place), grid, reflectance: values },
      ...(on && { backing: on.text }),
      ...(across && { apertureMillimetres: numberIn(across, "aperture") }),
      ...(noted && { note: noted.text }),
    };
    return atCells(cells, place, () => NAMED_READING.check(reading, ""));
  };
  return {
    readings: rows.map(readRow),
    leftOut: header.filter((_, i) => !used.includes(i)).map(({ text }) => text),
  };
}

/** What the observers of a file are called: by name, or by the size of the field in degrees. */
const OBSERVERS: Readonly<Record<string, ObserverId>> = {
  "1931-2": "1931-2",
  "2": "1931-2",
  "1964-10": "1964-10",
  "10": "1964-10",
};

/** The colours of a table without spectra. Throws `missing` with the reason where a column, light or observer is not said. */
function coloursInTable(
  { header, rows }: ReadingTable,
  declared: Declared,
  {
    labs,
    columnOf,
  }: { readonly labs: readonly number[]; readonly columnOf: (known: readonly string[]) => number },
): ReadingsFile {
  const lacking = labs.indexOf(-1);
  if (lacking >= 0) {
    const reason = `no column ${LAB[lacking][0].toUpperCase().replace("A*", "a*").replace("B*", "b*")}, where the other two are`;
    throw new InputError("missing", placeOf(header[0]), reason);
  }
  const [name, geometry, illuminant, observer] = [
    COLUMNS.name,
    COLUMNS.geometry,
    COLUMNS.illuminant,
    COLUMNS.observer,
  ].map(columnOf);
  const used = [...labs, name, geometry, illuminant, observer];
  const colours = rows.map((row, index) => {
    const said = (column: number) => (row[column]?.text ? row[column] : undefined);
    const [light, eye] = [said(illuminant), said(observer)];
    const colour = {
      geometry: geometryOf(said(geometry), declared, row[0]),
      illuminant: light?.text ?? declared.illuminant,
      observer: eye ? (OBSERVERS[eye.text.replace(/ ?(°|deg)$/, "")] ?? eye.text) : declared.observer,
      lab: labs.map((column) => numberIn(row[column], header[column].text)),
    };
    const cells = [light, eye, ...labs.map((column) => row[column])].filter((cell) => cell !== undefined);
    return {
      name: said(name)?.text ?? `reading ${index + 1}`,
      colour: atCells(cells, row[0], () => COLOUR_READING.check(colour, "")),
    };
  });
  return {
    readings: [],
    colours,
    leftOut: header.filter((_, i) => !used.includes(i)).map(({ text }) => text),
  };
}

/** The bands of a header, in its order. Throws `missing` where there are none. */
function bandsOf(header: readonly Cell[]): readonly Band[] {
  const bands: Band[] = [];
  let waves: number | undefined;
  header.forEach((cell, column) => {
    const [, , nm] = BAND.exec(cell.text) ?? [];
    const unit = (BAND.exec(cell.text) ?? VALUE_COLUMN.exec(cell.text))?.[1]?.toUpperCase();
    const scale = unit === "DEC" ? "fraction" : unit === "PCT" ? "percent" : undefined;
    if (WAVELENGTH_COLUMN.test(cell.text)) waves = column;
    else if (nm !== undefined) bands.push({ column, nm: { ...cell, text: nm }, ...(scale && { scale }) });
    else if (waves !== undefined && scale) bands.push({ column, nm: waves, scale });
  });
  if (bands.length > 0) return bands;
  throw new InputError("missing", header.length > 0 ? placeOf(header[0]) : "", "no column of a wavelength");
}

const columnsOfBand = ({ column, nm }: Band): readonly number[] =>
  typeof nm === "number" ? [nm, column] : [column];
