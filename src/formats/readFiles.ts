import { ILLUMINANT, type IlluminantName } from "../colorimetry/illuminant.js";
import { OBSERVER, type ObserverId } from "../colorimetry/observer.js";
import { list } from "../core/shape/list.js";
import { optional } from "../core/shape/optional.js";
import { record } from "../core/shape/record.js";
import { text } from "../core/shape/text.js";
import { GEOMETRY, type Geometry } from "../surface/geometry.js";
import { SCALE, type Scale } from "./declared.js";
import type { ReadingsFile } from "./namedReading.js";
import { READING_KIND, type ReadingKind, readReadings } from "./readReadings.js";
import { toldIn } from "./toldIn.js";

/** Brings the text of a file of readings that another file names, such as `"ladder.csv"`. */
export type FindText = (name: string) => string;

/** A file of readings, looked for beside the file that names it. */
export interface FileOfReadings {
  /** Of the file. */
  readonly name: string;
  /** By the extension of the name when absent. */
  readonly kind?: ReadingKind;
  /** Where the file itself does not say it. */
  readonly geometry?: Geometry;
  /** Where the file itself does not say it. */
  readonly scale?: Scale;
  /** The light that L*, a*, b* of the file were computed for, where it does not say so. */
  readonly illuminant?: IlluminantName;
  /** The observer likewise. */
  readonly observer?: ObserverId;
}

/** Files of readings that another file names. */
export const FILES_OF_READINGS = list(
  record<FileOfReadings>({
    name: text(),
    kind: optional(READING_KIND),
    geometry: optional(GEOMETRY),
    scale: optional(SCALE),
    illuminant: optional(ILLUMINANT),
    observer: optional(OBSERVER),
  }),
);

/** Readings from the files of a record. Errors name the file before the place. */
export function readFiles(files: unknown, findText: FindText): readonly ReadingsFile[] {
  return FILES_OF_READINGS.check(files ?? [], "files").map(({ name, kind, ...declared }, i) => {
    const content = findText(name);
    return toldIn(name, () => readReadings(content, { name, kind, declared }, `files[${i}].kind`));
  });
}
