import { checkText } from "../core/check.js";
import { didYouMean } from "../core/didYouMean.js";
import { InputError } from "../core/InputError.js";
import type { Shape } from "../core/shape/shape.js";
import { type Grid, wavelengths } from "../spectra/grid.js";
import type { Spectrum } from "../spectra/spectrum.js";
import { FLUORESCENTS } from "./data/fluorescents.js";
import { ILLUMINANT_C } from "./data/illuminantC.js";
import { LED_B3 } from "./data/ledB3.js";
import { DAYLIGHT_RANGE, daylight } from "./daylight.js";

/** The two CIE standard illuminants (ISO/CIE 11664-2) are tabulated every 1 nm, all others every 5 nm. */
const EVERY_1_NM: Grid = { start: 360, step: 1, count: 471 };
const FROM_380_NM: Grid = { start: 380, step: 5, count: 81 };
const FROM_360_NM: Grid = { start: 360, step: 5, count: 85 };

/** c₂ was 1.4380e−2 m·K when D50 … D75 were named and is 1.4388e−2 now: D65 has 6504 K. */
const TODAY = 1.4388 / 1.438;

/** Illuminants with a table or a formula; besides these any daylight by its temperature, such as `D6000K`. */
export const ILLUMINANT_NAMES = ["A", "C", "D50", "D55", "D65", "D75", "F2", "F7", "F11", "LED-B3"] as const;

/** An illuminant with a table or a formula of its own. */
export type NamedIlluminant = (typeof ILLUMINANT_NAMES)[number];

/** A CIE illuminant by name, or any daylight of 4000–25000 K by its temperature, such as `D6000K`. */
export type IlluminantName = NamedIlluminant | `D${number}K`;

const DAYLIGHT_NAME = /^D(\d{4,5})K$/;

/** The name of an illuminant that is known. Throws `unknown-illuminant`, listing the known names. */
export const ILLUMINANT: Shape<IlluminantName> = Object.freeze({
  check: (value: unknown, path: string) => {
    const name = checkText(value, path);
    knownIlluminant(name, path);
    return name as IlluminantName;
  },
  form: {
    kind: "other",
    schema: {
      anyOf: [
        { enum: ILLUMINANT_NAMES },
        { type: "string", pattern: "^D([4-9][0-9]{3}|1[0-9]{4}|2[0-4][0-9]{3}|25000)K$" },
      ],
    },
  },
} as const);

/** Relative spectral power by name. Apart from the names, so that who only checks a name loads no tables. */
const ILLUMINANTS: Readonly<Record<NamedIlluminant, () => Spectrum>> = {
  A: () => ({ grid: EVERY_1_NM, values: wavelengths(EVERY_1_NM).map(incandescent) }),
  C: () => ({ grid: FROM_360_NM, values: ILLUMINANT_C }),
  D50: () => daylight(5000 * TODAY),
  D55: () => daylight(5500 * TODAY),
  D65: () => daylight(6500 * TODAY, EVERY_1_NM),
  D75: () => daylight(7500 * TODAY),
  F2: () => ({ grid: FROM_380_NM, values: FLUORESCENTS.F2 }),
  F7: () => ({ grid: FROM_380_NM, values: FLUORESCENTS.F7 }),
  F11: () => ({ grid: FROM_380_NM, values: FLUORESCENTS.F11 }),
  "LED-B3": () => ({ grid: FROM_380_NM, values: LED_B3 }),
};

/**
 * Relative spectral power of a CIE illuminant by its name, or of daylight of 4000–25000 K such as `D6000K`, on
 * the grid on which the standard tabulates it. Throws `unknown-illuminant`, listing the known names.
 */
export function illuminantSpectrum(name: IlluminantName, path = ""): Spectrum {
  const known = knownIlluminant(checkText(name, path), path);
  return typeof known === "number" ? daylight(known) : ILLUMINANTS[known]();
}

/** What a name stands for: a table, or daylight of a correlated colour temperature in kelvin. */
function knownIlluminant(name: string, path: string): NamedIlluminant | number {
  const own = ILLUMINANT_NAMES.find((candidate) => candidate === name);
  if (own !== undefined) return own;
  const { min, max } = DAYLIGHT_RANGE;
  const temperatureK = Number(DAYLIGHT_NAME.exec(name)?.[1]);
  if (temperatureK >= min && temperatureK <= max) return temperatureK;
  const names = `${ILLUMINANT_NAMES.join(", ")}, daylight D${min}K to D${max}K`;
  throw new InputError(
    "unknown-illuminant",
    path,
    `"${name}" is not one of ${names}.${didYouMean(name, ILLUMINANT_NAMES)}`,
  );
}

/** CIE illuminant A: a Planckian radiator of 2848 K with c₂ = 1.435e7 nm·K, 100 at 560 nm (ISO/CIE 11664-2). */
function incandescent(nm: number): number {
  const c = 1.435e7 / 2848;
  return (100 * (560 / nm) ** 5 * Math.expm1(c / 560)) / Math.expm1(c / nm);
}
