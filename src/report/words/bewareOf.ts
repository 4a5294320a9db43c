import type { Warning, WarningCode } from "../../core/warning.js";
import { shortened } from "./fitTable.js";

/** Lines of what to beware of. */
const MOST = 2;

/** Letters of each: what is longer is told in the details. */
const MOST_LETTERS = 230;

/** True, and no reason to do anything else: told in the details. */
const HARMLESS: readonly WarningCode[] = [
  "card-not-from-pot",
  "collinear-toners",
  "narrow-range",
  "resampled",
  "uncertainty-cut",
];

/** What changes what one does, the first few. */
export function bewareOf(warnings: readonly Warning[]): readonly string[] {
  return warnings
    .filter(({ code }) => !HARMLESS.includes(code))
    .slice(0, MOST)
    .map(({ message, path }) => shortened(`Beware: ${path ? `${path}: ` : ""}${message}`, MOST_LETTERS));
}
