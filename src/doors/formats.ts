/**
 * Text to values and back; no disk. The JSON Schemas are at `masstone/schemas/*.json`.
 * @module formats
 */
export { FORMAT_VERSIONS } from "../formats/header.js";
export { type FindToners, readJob, readMix } from "../formats/jobFile.js";
export { readToners, writeToners } from "../formats/tonersFile.js";
