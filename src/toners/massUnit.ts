/** Units in which amounts are typed and shown; inside, everything is grams. */
export const MASS_UNITS = ["g", "oz", "drops"] as const;

/** One of `MASS_UNITS`; ounces are avoirdupois. */
export type MassUnit = (typeof MASS_UNITS)[number];
