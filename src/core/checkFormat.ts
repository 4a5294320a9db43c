import { pathTo } from "./check.js";
import { InputError } from "./InputError.js";

/** The version of every format that this package reads and writes. */
export const FORMAT_VERSION = 1;

/** Refuses another `format` or `version` than this, where they stand. Throws `wrong-format` and `wrong-version`. */
export function checkFormat(record: Readonly<Record<string, unknown>>, path: string, format: string): void {
  if (record.format !== undefined && record.format !== format) {
    const reason = `"${format}" is needed here; not ${shortly(record.format)}`;
    throw new InputError("wrong-format", pathTo(path, "format"), reason);
  }
  if (record.version !== undefined && record.version !== FORMAT_VERSION) {
    const reason = `version ${FORMAT_VERSION} is read here; not ${shortly(record.version)}`;
    throw new InputError("wrong-version", pathTo(path, "version"), reason);
  }
}

/** The start of a value, long enough to show a slip; a file may hold anything there. */
const shortly = (value: unknown): string => JSON.stringify(value).slice(0, 60);
