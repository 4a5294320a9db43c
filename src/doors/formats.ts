/**
 * Text to values and back; no disk. The JSON Schemas are at `masstone/schemas/*.json`.
 * @module formats
 */
export type { Declared, Scale } from "../formats/declared.js";
export { FORMAT_VERSIONS } from "../formats/header.js";
export { type FindToners, readJob, readMix, readMixOnCard } from "../formats/jobFile.js";
export {
  type JobRecord,
  NO_ENTRIES,
  type RecordEnd,
  readRecord,
  readRecordEnd,
  recordLine,
  writeRecordEnd,
} from "../formats/jobRecord.js";
export type { NamedColour, NamedReading, ReadingsFile } from "../formats/namedReading.js";
export type { FindText } from "../formats/readFiles.js";
export { readReadingsCgats, writeReadingsCgats } from "../formats/readingsCgats.js";
export { readReadingsCsv, writeReadingsCsv } from "../formats/readingsCsv.js";
export { readReadingsCxf3, writeReadingsCxf3 } from "../formats/readingsCxf3.js";
export { readReadingsJson, writeReadingsJson } from "../formats/readingsJson.js";
export { readPlan } from "../formats/readPlan.js";
export { READING_KINDS, type ReadingKind, readReadings } from "../formats/readReadings.js";
export { readSamples, type SamplesFile } from "../formats/samplesFile.js";
export { readToners, writeToners } from "../formats/tonersFile.js";
