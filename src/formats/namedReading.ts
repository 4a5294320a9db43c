import { checkList } from "../core/check.js";
import { list } from "../core/shape/list.js";
import { number } from "../core/shape/number.js";
import { optional } from "../core/shape/optional.js";
import { type Noted, record } from "../core/shape/record.js";
import { text } from "../core/shape/text.js";
import { READING, type Reading } from "../surface/reading.js";

/** A reading with what an instrument's file says beside it. Its texts are of one line. */
export interface NamedReading extends Noted {
  /** Several geometries or backings of one sample share it. */
  readonly name: string;
  readonly reading: Reading;
  /** What lay under the film: `black`, `white`, or another word of the writer's. */
  readonly backing?: string;
  /** Opening of the instrument. */
  readonly apertureMillimetres?: number;
  /** Whatever else the instrument wrote. */
  readonly note?: string;
}

/** What came out of a file, in its order. */
export interface ReadingsFile {
  readonly readings: readonly NamedReading[];
  /** Columns, fields or elements of the file that were not read, by name. */
  readonly leftOut: readonly string[];
}

/** A reading with its name. */
export const NAMED_READING = record<NamedReading>({
  name: text(),
  reading: READING,
  backing: optional(text()),
  apertureMillimetres: optional(number({ min: 0, max: 1000, aboveMin: true })),
  note: optional(text()),
});

/** At least one; a name may come again, for another geometry or another backing. */
export const NAMED_READINGS = list(NAMED_READING, { min: 1 });

/** The parts of a file as one. Throws `wrong-length` where no reading came out, `too-large` where too many did. */
export function readingsFile(parts: readonly ReadingsFile[]): ReadingsFile {
  const readings = parts.flatMap((part) => part.readings);
  checkList(readings, "readings", { min: 1 });
  return { readings, leftOut: [...new Set(parts.flatMap((part) => part.leftOut))] };
}
