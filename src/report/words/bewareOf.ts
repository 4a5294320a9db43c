import type { Warning, WarningCode } from "../../core/warning.js";
import { shortened } from "./fitTable.js";

/** Most warnings on a screen. */
const MOST = 2;

/** Most letters of each; longer ones stand in the details. */
const MOST_LETTERS = 230;

/** Warnings that call for no action; they stand in the details. */
const HARMLESS: readonly WarningCode[] = [
  "card-not-from-pot",
  "collinear-toners",
  "narrow-range",
  "resampled",
  "uncertainty-cut",
];

/** The first few warnings that call for action. */
export function bewareOf(warnings: readonly Warning[]): readonly string[] {
  return warnings
    .filter(({ code }) => !HARMLESS.includes(code))
    .slice(0, MOST)
    .map(({ message, path }) => shortened(`Beware: ${path ? `${path}: ` : ""}${message}`, MOST_LETTERS));
}
