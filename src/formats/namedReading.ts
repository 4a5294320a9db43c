import { checkList, checkNumber, checkRecord, checkText, pathTo } from "../core/check.js";
import { checkReading, type Reading } from "../surface/reading.js";

/** A reading with what an instrument's file says beside it. Its texts are of one line. */
export interface NamedReading {
  readonly name: string;
  readonly reading: Reading;
  /** What lay under the film: `black`, `white`, or another word of the writer's. */
  readonly backing?: string;
  readonly apertureMillimetres?: number;
  readonly note?: string;
}

/** What came out of a file, in its order. */
export interface ReadingsFile {
  readonly readings: readonly NamedReading[];
  /** Columns, fields or elements of the file that were not read, by name. */
  readonly leftOut: readonly string[];
}

/** Largest opening of an instrument that is read, in mm. */
const LARGEST_APERTURE = 1000;

/** Throws `wrong-type` for texts of several lines, `out-of-range` for the aperture, and as `checkReading` does. */
export function checkNamedReading(value: unknown, path: string): NamedReading {
  const record = checkRecord(value, path);
  const line = (key: string): string => checkText(record[key], pathTo(path, key));
  const aperture = pathTo(path, "apertureMillimetres");
  const range = { min: 0, max: LARGEST_APERTURE, aboveMin: true };
  return {
    name: line("name"),
    reading: checkReading(record.reading, pathTo(path, "reading")),
    ...(record.backing === undefined ? {} : { backing: line("backing") }),
    ...(record.apertureMillimetres === undefined
      ? {}
      : { apertureMillimetres: checkNumber(record.apertureMillimetres, aperture, range) }),
    ...(record.note === undefined ? {} : { note: line("note") }),
  };
}

/** At least one named reading; a name may come again, for another geometry or another backing. */
export function checkNamedReadings(value: unknown, path: string): readonly NamedReading[] {
  const list = checkList(value, path, { min: 1 });
  return Array.from(list, (entry, i) => checkNamedReading(entry, `${path}[${i}]`));
}

/** The parts of a file as one. Throws `wrong-length` where no reading came out, `too-large` where too many did. */
export function readingsFile(parts: readonly ReadingsFile[]): ReadingsFile {
  const readings = parts.flatMap((part) => part.readings);
  checkList(readings, "readings", { min: 1 });
  return { readings, leftOut: [...new Set(parts.flatMap((part) => part.leftOut))] };
}
