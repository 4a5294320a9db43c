import type { Grams } from "../../toners/pot.js";
import { fitTable, shortened } from "./fitTable.js";
import { type MassDisplay, massCell, massHead, massText } from "./massText.js";
import type { Table } from "./table.js";

/** More rows than this would push the rest off the screen; then amounts stand side by side. */
export const MOST_ROWS = 6;

/** Most amounts on a screen. */
const MOST_TOLD = 16;

/** Most letters of a name where amounts are listed side by side. */
const MOST_LETTERS = 24;

const largestFirst = (grams: Grams): readonly (readonly [id: string, grams: number])[] =>
  Object.entries(grams)
    .filter(([, amount]) => amount > 0)
    .sort(([, a], [, b]) => b - a);

/** Amounts to pour, the largest first, with what the scale shows when it was zeroed before the first. */
export function recipeTable(grams: Grams, nameOf: (id: string) => string, display: MassDisplay): Table {
  let onScale = 0;
  const rows = largestFirst(grams).map(([id, amount], i) => {
    onScale += amount;
    return [`${i + 1}`, nameOf(id), massCell(amount, display, id), massCell(onScale, display)];
  });
  return { head: ["", "pour", massHead(display), "scale shows"], rows, right: [2, 3] };
}

/** The same on a screen; where it has no room for a table, side by side. */
export function recipeText(grams: Grams, nameOf: (id: string) => string, display: MassDisplay): string {
  const pours = largestFirst(grams);
  if (pours.length <= MOST_ROWS) return fitTable(recipeTable(grams, nameOf, display), 1);
  const told = pours
    .slice(0, MOST_TOLD)
    .map(([id, amount]) => `${shortened(nameOf(id), MOST_LETTERS)} ${massText(amount, display, id)}`);
  const left = pours.length - told.length;
  return `${told.join(", ")}${left > 0 ? `; ${left} smaller ones are among the --details` : ""}`;
}
