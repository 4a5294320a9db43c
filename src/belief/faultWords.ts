import type { Fault } from "./fault.js";

/** How grams and toners are written. */
export interface FaultStyle {
  mass(grams: number, toner: string): string;
  name(toner: string): string;
}

/** Two figures are as much as a card can tell of a pour. */
const FIGURES = 2;

/** A fault in words: what would have to be so for the card to fit. */
export function faultWords(fault: Fault, { mass, name }: FaultStyle): string {
  switch (fault.kind) {
    case "tenfold":
    case "mis-pour": {
      const truly = mass(Number((fault.noted + fault.grams).toPrecision(FIGURES)), fault.toner);
      const why = fault.kind === "tenfold" ? ": the decimal point" : "";
      return `as if ${truly} ${name(fault.toner)} had been poured, not ${mass(fault.noted, fault.toner)}${why}`;
    }
    case "not-poured":
      return `as if the ${mass(-fault.grams, fault.toner)} of ${name(fault.toner)} had not been poured`;
    case "wrong-toner":
      return `as if ${name(fault.poured)} had been poured instead of ${name(fault.toner)} (${mass(fault.grams, fault.toner)})`;
    case "swapped-card":
      return `as if this were the card of another pot: ${fault.card}`;
    case "spike":
      return `a bad reading: one band, ${fault.wavelength} nm at ${fault.geometry}`;
    case "offset":
      return `a bad reading: too high or too low at all wavelengths (${fault.geometry}); calibrate the instrument`;
    case "other":
      return "something else: no single fault explains it";
  }
}
