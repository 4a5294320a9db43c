import { checkNumber, checkRecord } from "../core/check.js";

/** Far beyond any flake; keeps the index finite. */
const MOST_LIGHTNESS = 1e6;

/** L* of one film at three aspecular angles under 45° light. */
export interface FlopLightness {
  readonly at15: number;
  readonly at45: number;
  readonly at110: number;
}

/**
 * Flop index 2.69·(L*15 − L*110)^1.11 / L*45^0.86: how much lighter the face is than the flop; 0 of a solid colour, about 15
 * of a strong silver. Null where the flop is lighter than the face or the middle is black: the formula says nothing there.
 * Throws InputError. Source: Alman 1987 (from memory).
 */
export function flopIndex(lightness: FlopLightness): number | null {
  const record = checkRecord(lightness, "lightness");
  const [at15, at45, at110] = ["at15", "at45", "at110"].map((key) =>
    checkNumber(record[key], `lightness.${key}`, { min: -MOST_LIGHTNESS, max: MOST_LIGHTNESS }),
  );
  const fall = at15 - at110;
  return fall < 0 || !(at45 > 0) ? null : (2.69 * fall ** 1.11) / at45 ** 0.86;
}
