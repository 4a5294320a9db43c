import { checkKeys, checkList, checkRecord, checkText, pathTo } from "../core/check.js";
import { InputError, isInputError } from "../core/InputError.js";
import { checkDeclared } from "./declared.js";
import type { ReadingsFile } from "./namedReading.js";
import { readReadings } from "./readReadings.js";

/** Brings the text of a file of readings that another file names, such as `"ladder.csv"`. */
export type FindText = (name: string) => string;

/**
 * The files of readings that stand in `files` of a record: `name`, and what the file itself does not say, `kind`,
 * `geometry`, `scale`. Whatever is wrong in one is told with its name before the place.
 */
export function readFiles(value: unknown, findText: FindText): readonly ReadingsFile[] {
  if (value === undefined) return [];
  return Array.from(checkList(value, "files"), (entry, i) => {
    const path = `files[${i}]`;
    const record = checkRecord(entry, path);
    checkKeys(record, path, ["name", "kind", "geometry", "scale"]);
    const { kind, geometry, scale } = record;
    const name = checkText(record.name, pathTo(path, "name"));
    const declared = checkDeclared({
      ...(geometry !== undefined && { geometry }),
      ...(scale !== undefined && { scale }),
    });
    const text = findText(name);
    try {
      return readReadings(
        text,
        { name, ...(kind !== undefined && { kind }), declared },
        pathTo(path, "kind"),
      );
    } catch (error) {
      if (!isInputError(error)) throw error;
      throw new InputError(error.code, error.path === "" ? name : `${name}: ${error.path}`, error.reason);
    }
  });
}
