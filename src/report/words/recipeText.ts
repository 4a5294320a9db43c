import type { Grams } from "../../toners/pot.js";
import { fitTable, shortened } from "./fitTable.js";
import { type MassDisplay, massCell, massHead, massText } from "./massText.js";

/** More rows than this would push the rest off the screen; then amounts stand side by side. */
export const MOST_ROWS = 6;

/** Most amounts on a screen. */
const MOST_TOLD = 16;

/** Most letters of a name where amounts are listed side by side. */
const MOST_LETTERS = 24;

/** Amounts to pour, the largest first, with what the scale shows when it was zeroed before the first. */
export function recipeText(grams: Grams, nameOf: (id: string) => string, display: MassDisplay): string {
  const pours = Object.entries(grams)
    .filter(([, amount]) => amount > 0)
    .sort(([, a], [, b]) => b - a);
  if (pours.length > MOST_ROWS) {
    const told = pours
      .slice(0, MOST_TOLD)
      .map(([id, amount]) => `${shortened(nameOf(id), MOST_LETTERS)} ${massText(amount, display, id)}`);
    const left = pours.length - told.length;
    return `${told.join(", ")}${left > 0 ? `; ${left} smaller ones are among the --details` : ""}`;
  }
  let onScale = 0;
  const rows = pours.map(([id, amount], i) => {
    onScale += amount;
    return [`${i + 1}`, nameOf(id), massCell(amount, display, id), massCell(onScale, display)];
  });
  return fitTable({ head: ["", "pour", massHead(display), "scale shows"], rows, right: [2, 3] }, 1);
}
