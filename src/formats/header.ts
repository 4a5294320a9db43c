import { checkRecord } from "../core/check.js";
import { checkFormat } from "../core/checkFormat.js";
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
  "masstone/next": 1,
  "masstone/record-end": 1,
  "masstone/refusal": 1,
} as const);

/** Checks `format` and `version` of a record and returns it; throws `wrong-format` and `wrong-version`. */
export function checkHeader(
  value: unknown,
  format: keyof typeof FORMAT_VERSIONS,
): Readonly<Record<string, unknown>> {
  const record = checkRecord(value, "");
  const version = FORMAT_VERSIONS[format];
  if (record.format === undefined) {
    const reason = `"${format}" is needed here; there is no format; begin with "format": "${format}", "version": ${version}`;
    throw new InputError("wrong-format", "format", reason);
  }
  if (record.version === undefined) {
    throw new InputError("wrong-version", "version", `version ${version} is read here; there is none`);
  }
  checkFormat(record, "", format);
  return record;
}
