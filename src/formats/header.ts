import { checkRecord } from "../core/check.js";
import { InputError } from "../core/InputError.js";

/** The formats that this package reads and writes, each with the version it knows. */
export const FORMAT_VERSIONS = Object.freeze({
  "masstone/toners": 1,
  "masstone/job": 1,
  "masstone/correction": 1,
  "masstone/certificate": 1,
  "masstone/prediction": 1,
  "masstone/directions": 1,
  "masstone/readings": 1,
  "masstone/samples": 1,
  "masstone/characterisation": 1,
  "masstone/plan": 1,
  "masstone/hold-back": 1,
  "masstone/learning": 1,
  "masstone/record": 1,
  "masstone/job-state": 1,
  "masstone/record-end": 1,
} as const);

/** Checks `format` and `version` of a record and returns it; throws `wrong-format` and `wrong-version`. */
export function checkHeader(
  value: unknown,
  format: keyof typeof FORMAT_VERSIONS,
): Readonly<Record<string, unknown>> {
  const record = checkRecord(value, "");
  const known = FORMAT_VERSIONS[format];
  if (record.format !== format) {
    const found =
      record.format === undefined
        ? `there is no format; begin with "format": "${format}", "version": ${known}`
        : `not ${shortly(record.format)}`;
    throw new InputError("wrong-format", "format", `"${format}" is needed here; ${found}`);
  }
  if (record.version !== known) {
    const found = record.version === undefined ? "there is none" : `not ${shortly(record.version)}`;
    throw new InputError("wrong-version", "version", `version ${known} is read here; ${found}`);
  }
  return record;
}

/** So much of a value as tells a slip; a file may say anything there. */
const shortly = (value: unknown): string => JSON.stringify(value).slice(0, 60);
