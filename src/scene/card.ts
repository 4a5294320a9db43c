import { pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { optional } from "../core/shape/optional.js";
import { type Noted, record } from "../core/shape/record.js";
import { text } from "../core/shape/text.js";
import { type Reading, SOME_READINGS } from "../surface/reading.js";
import { type CheckedColourReading, COLOURS, type ColourReading } from "./readings/colourReading.js";

/** A card sprayed from a pot, as read. */
export interface Card extends Noted {
  /** For people, and for finding its reading in a file. */
  readonly name?: string;
  /** Spectra; an empty list where there are `colours` alone, or the card was only looked at. */
  readonly readings: readonly Reading[];
  /** Colours without spectra, beside `readings` or instead of them. */
  readonly colours?: readonly ColourReading[];
}

/** A card with every default in place: no list is left out. */
export interface CheckedCard extends Card {
  readonly colours: readonly CheckedColourReading[];
}

/** What may leave out its spectra, which then are none. */
export type Unread<T extends { readonly readings: unknown }> = Omit<T, "readings"> &
  Partial<Pick<T, "readings">>;

/** A card. */
export const CARD = record<CheckedCard, Unread<Card>>({
  name: optional(text()),
  readings: optional(SOME_READINGS, []),
  colours: optional(COLOURS, []),
});

/** What an instrument may have said of a surface. */
export interface Measured {
  readonly readings: readonly unknown[];
  readonly colours?: readonly unknown[];
}

/** Whether an instrument was held to a surface, not an eye alone. */
export function isMeasured({ readings, colours = [] }: Measured): boolean {
  return readings.length + colours.length > 0;
}

/** Throws `missing` for a surface of which nothing was read. */
export function checkIsRead(surface: Measured, path: string): void {
  if (isMeasured(surface)) return;
  throw new InputError("missing", pathTo(path, "readings"), "a list is needed here, or `colours`");
}
