import { checkList } from "../core/check.js";
import { list } from "../core/shape/list.js";
import { number } from "../core/shape/number.js";
import { optional } from "../core/shape/optional.js";
import { type Noted, record } from "../core/shape/record.js";
import { text } from "../core/shape/text.js";
import type { ColourReading } from "../scene/readings/colourReading.js";
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

/** A colour from a file that holds no spectra. */
export interface NamedColour {
  /** Several geometries or lights of one sample share it. */
  readonly name: string;
  readonly colour: ColourReading;
}

/** What came out of a file, in its order. */
export interface ReadingsFile {
  readonly readings: readonly NamedReading[];
  /** Of a file of L*, a*, b* without spectra. */
  readonly colours?: readonly NamedColour[];
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

/** The parts of a file as one. Throws `wrong-length` where neither reading nor colour came out, `too-large` where too many did. */
export function readingsFile(parts: readonly ReadingsFile[]): ReadingsFile {
  const readings = parts.flatMap((part) => part.readings);
  const colours = parts.flatMap((part) => part.colours ?? []);
  if (colours.length === 0) checkList(readings, "readings", { min: 1 });
  return {
    readings,
    ...(colours.length > 0 && { colours }),
    leftOut: [...new Set(parts.flatMap((part) => part.leftOut))],
  };
}
