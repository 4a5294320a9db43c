import { optional } from "../core/shape/optional.js";
import { type Noted, record } from "../core/shape/record.js";
import { text } from "../core/shape/text.js";
import { READINGS, type Reading } from "../surface/reading.js";

/** A card sprayed from a pot, as read. */
export interface Card extends Noted {
  /** For people, and for finding its reading in a file. */
  readonly name?: string;
  readonly readings: readonly Reading[];
}

/** A card. */
export const CARD = record<Card>({ name: optional(text()), readings: READINGS });
