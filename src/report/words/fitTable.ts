import { SCREEN_COLUMNS } from "./screenText.js";
import type { Table } from "./table.js";
import { textTable } from "./textTable.js";

/**
 * A table no wider than a screen: the last column, a list of words, loses the least of them; then the column `name` is cut, which
 * shows as "…". Amounts are never cut.
 */
export function fitTable({ head, rows, right }: Table, name: number): string {
  const width = (all: readonly (readonly string[])[]) =>
    Math.max(
      ...textTable(all, { right })
        .split("\n")
        .map((line) => [...line].length),
    );
  const withCells = (change: (cells: readonly string[]) => readonly string[], all: typeof rows) =>
    all.map((cells) => change(cells));
  let fitted = rows;
  for (let words = 2; words > 0 && width([head, ...fitted]) > SCREEN_COLUMNS; words--) {
    fitted = withCells(
      (cells) => cells.toSpliced(-1, 1, (cells.at(-1) ?? "").split(", ").slice(0, words).join(", ")),
      fitted,
    );
  }
  const over = width([head, ...fitted]) - SCREEN_COLUMNS;
  if (over > 0) {
    const longest = Math.max(...fitted.map((cells) => [...cells[name]].length));
    const most = Math.max(8, longest - over);
    fitted = withCells((cells) => cells.toSpliced(name, 1, shortened(cells[name], most)), fitted);
  }
  return textTable([head, ...fitted], { right });
}

/** A text of at most so many characters; what is cut shows as "…". */
export function shortened(text: string, most: number): string {
  const letters = [...text];
  return letters.length <= most ? text : `${letters.slice(0, most - 1).join("")}…`;
}
