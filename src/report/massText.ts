import { gramsText } from "./gramsText.js";

/** Units in which amounts can be shown; inside, everything is grams. */
export const MASS_UNITS = ["g", "oz"] as const;

/** One of `MASS_UNITS`; ounces are avoirdupois. */
export type MassUnit = (typeof MASS_UNITS)[number];

/** In which unit amounts are shown. */
export interface MassDisplay {
  readonly unit: MassUnit;
}

export const IN_GRAMS: MassDisplay = Object.freeze({ unit: "g" });

/** The avoirdupois ounce, exact by the international agreement of 1959. */
const GRAMS_PER_OUNCE = 28.349523125;

/** An amount with its unit: grams as the scale shows them, or thousandths of an ounce. */
export function massText(grams: number, { unit }: MassDisplay): string {
  return unit === "oz" ? `${(grams / GRAMS_PER_OUNCE).toFixed(3)} oz` : `${gramsText(grams)} g`;
}
