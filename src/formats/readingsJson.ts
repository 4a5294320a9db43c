import { record } from "../core/shape/record.js";
import { checkHeader, FORMAT_VERSIONS } from "./header.js";
import { parseJson } from "./json.js";
import { NAMED_READINGS, type NamedReading, type ReadingsFile } from "./namedReading.js";

/** Readings of an instrument, in a file of their own. */
export interface ReadingsJson {
  readonly readings: readonly NamedReading[];
}

/** The file. */
export const READINGS_JSON = record<ReadingsJson>(
  { readings: NAMED_READINGS },
  { format: "masstone/readings" },
);

/** Readings from the text of a `masstone/readings` file. Throws InputError with the place in the file. */
export function readReadingsJson(text: string): ReadingsFile {
  const { readings } = READINGS_JSON.check(checkHeader(parseJson(text), "masstone/readings"), "");
  return { readings, leftOut: [] };
}

/** The text of a `masstone/readings` file; `readReadingsJson` of it gives the same readings back. */
export function writeReadingsJson(readings: readonly NamedReading[]): string {
  const plain = NAMED_READINGS.check(readings, "readings").map((named) => ({
    ...named,
    reading: { ...named.reading, reflectance: Array.from(named.reading.reflectance) },
  }));
  const version = FORMAT_VERSIONS["masstone/readings"];
  return `${JSON.stringify({ format: "masstone/readings", version, readings: plain }, null, 2)}\n`;
}
