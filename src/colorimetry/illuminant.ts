import { checkText } from "../core/check.js";
import { didYouMean } from "../core/didYouMean.js";
import { InputError } from "../core/InputError.js";
import { type Grid, wavelengths } from "../spectra/grid.js";
import type { Spectrum } from "../spectra/spectrum.js";
import { FLUORESCENTS } from "./data/fluorescents.js";
import { ILLUMINANT_C } from "./data/illuminantC.js";
import { LED_B3 } from "./data/ledB3.js";
import { DAYLIGHT_RANGE, daylight } from "./daylight.js";

/** Illuminants with a table or a formula; besides these any daylight by its temperature, such as `D6000K`. */
export const ILLUMINANT_NAMES = ["A", "C", "D50", "D55", "D65", "D75", "F2", "F7", "F11", "LED-B3"] as const;

type TabulatedIlluminant = (typeof ILLUMINANT_NAMES)[number];

/** The two CIE standard illuminants (ISO/CIE 11664-2) are tabulated every 1 nm, all others every 5 nm. */
const EVERY_1_NM: Grid = { start: 360, step: 1, count: 471 };
const FROM_380_NM: Grid = { start: 380, step: 5, count: 81 };
const FROM_360_NM: Grid = { start: 360, step: 5, count: 85 };

/** c₂ was 1.4380e−2 m·K when D50 … D75 were named and is 1.4388e−2 now: D65 has 6504 K. */
const TODAY = 1.4388 / 1.438;

const DAYLIGHT_NAME = /^D(\d{4,5})K$/;

/**
 * Relative spectral power of a CIE illuminant by its name, or of daylight of 4000–25000 K such as `D6000K`, on
 * the grid on which the standard tabulates it. Throws `unknown-illuminant`, listing the known names.
 */
export function illuminantSpectrum(name: string, path = ""): Spectrum {
  const known = knownIlluminant(checkText(name, path), path);
  return typeof known === "number" ? daylight(known) : tabulated(known);
}

/** The name of an illuminant that is known. Throws as `illuminantSpectrum` does. */
export function checkIlluminant(value: unknown, path: string): string {
  const name = checkText(value, path);
  knownIlluminant(name, path);
  return name;
}

/** What a name stands for: a table, or daylight of so many kelvin. */
function knownIlluminant(name: string, path: string): TabulatedIlluminant | number {
  const { min, max } = DAYLIGHT_RANGE;
  const temperatureK = Number(DAYLIGHT_NAME.exec(name)?.[1]);
  if (temperatureK >= min && temperatureK <= max) return temperatureK;
  const known = ILLUMINANT_NAMES.find((candidate) => candidate === name);
  if (known !== undefined) return known;
  const names = `${ILLUMINANT_NAMES.join(", ")}, daylight D${min}K to D${max}K`;
  throw new InputError(
    "unknown-illuminant",
    path,
    `"${name}" is not one of ${names}.${didYouMean(name, ILLUMINANT_NAMES)}`,
  );
}

function tabulated(name: TabulatedIlluminant): Spectrum {
  switch (name) {
    case "A":
      return { grid: EVERY_1_NM, values: wavelengths(EVERY_1_NM).map(incandescent) };
    case "C":
      return { grid: FROM_360_NM, values: ILLUMINANT_C };
    case "D50":
      return daylight(5000 * TODAY);
    case "D55":
      return daylight(5500 * TODAY);
    case "D65":
      return daylight(6500 * TODAY, EVERY_1_NM);
    case "D75":
      return daylight(7500 * TODAY);
    case "F2":
    case "F7":
    case "F11":
      return { grid: FROM_380_NM, values: FLUORESCENTS[name] };
    case "LED-B3":
      return { grid: FROM_380_NM, values: LED_B3 };
  }
}

/** CIE illuminant A: a Planckian radiator of 2848 K with c₂ = 1.435e7 nm·K, 100 at 560 nm (ISO/CIE 11664-2). */
function incandescent(nm: number): number {
  const c = 1.435e7 / 2848;
  return (100 * (560 / nm) ** 5 * Math.expm1(c / 560)) / Math.expm1(c / nm);
}
