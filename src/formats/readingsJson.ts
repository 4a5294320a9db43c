import { checkHeader, FORMAT_VERSIONS } from "./header.js";
import { parseJson } from "./json.js";
import { checkNamedReadings, type NamedReading, type ReadingsFile } from "./namedReading.js";

/** Readings from the text of a `masstone/readings` file. Throws InputError with the place in the file. */
export function readReadingsJson(text: string): ReadingsFile {
  const { readings } = checkHeader(parseJson(text), "masstone/readings");
  return { readings: checkNamedReadings(readings, "readings"), leftOut: [] };
}

/** The text of a `masstone/readings` file; `readReadingsJson` of it gives the same readings back. */
export function writeReadingsJson(readings: readonly NamedReading[]): string {
  const plain = checkNamedReadings(readings, "readings").map((named) => ({
    ...named,
    reading: { ...named.reading, reflectance: Array.from(named.reading.reflectance) },
  }));
  const version = FORMAT_VERSIONS["masstone/readings"];
  return `${JSON.stringify({ format: "masstone/readings", version, readings: plain }, null, 2)}\n`;
}
