import { InputError } from "../core/InputError.js";
import { type Cell, checkCellCount, linesOf, placeOf } from "./cell.js";

export type Separator = "," | ";" | "\t";

/** What spreadsheets take for a formula and run. An apostrophe before it makes it a text; apostrophes may come first. */
const FORMULA = /^'*[=+\-@]/;
const GUARDED_FORMULA = /^'+[=+\-@]/;

/**
 * The cells of a CSV text (RFC 4180), row by row, each with its place; `chooseSeparator` sees the first line that is
 * not empty. Lines of blanks and separators are passed over. A quoted cell must end on its line, so that one quote forgotten
 * is told where it is. Throws `unreadable-csv`, and `wrong-length` for a row that is not as long as the first.
 */
export function csvRows(
  text: string,
  chooseSeparator: (line: Cell) => Separator,
): readonly (readonly Cell[])[] {
  const lines = linesOf(text).filter(({ text: line }) => /[^\s,;]/.test(line));
  if (lines.length === 0) throw new InputError("missing", "", "the file is empty");
  const separator = chooseSeparator(lines[0]);
  const rows: (readonly Cell[])[] = [];
  let count = 0;
  for (const line of lines) {
    const row = csvCells(line, separator);
    count += row.length;
    checkCellCount(count, line);
    rows.push(row);
    if (row.length === rows[0].length) continue;
    const reason = `${row.length} cells where the first row has ${rows[0].length}`;
    throw new InputError("wrong-length", placeOf(line), reason);
  }
  return rows;
}

/**
 * The cells of one line; blanks around a cell without quotes, and an apostrophe before what would be a formula, are no
 * part of it. Throws `unreadable-csv`.
 */
function csvCells({ text, line }: Cell, separator: Separator): readonly Cell[] {
  const pattern = new RegExp(
    ` *"((?:[^"]|"")*)" *(?=${separator}|$)|([^"${separator}]*)(?=${separator}|$)`,
    "y",
  );
  const cells: Cell[] = [];
  for (let at = 0; at <= text.length; at = pattern.lastIndex + 1) {
    pattern.lastIndex = at;
    const found = pattern.exec(text);
    const cell = {
      text: unguarded(found?.[1]?.replaceAll('""', '"') ?? found?.[2]?.trim() ?? ""),
      line,
      column: at + 1,
    };
    if (!found) {
      const reason = "quotes must stand around a whole cell, and twice inside it";
      throw new InputError("unreadable-csv", placeOf(cell), reason);
    }
    cells.push(cell);
  }
  return cells;
}

/** Lines of comma-separated cells, quoted where they must be; texts that a spreadsheet would run begin with an apostrophe. */
export function csvText(rows: readonly (readonly (string | number)[])[]): string {
  const cellText = (cell: string | number) => {
    const text = typeof cell === "string" && FORMULA.test(cell) ? `'${cell}` : String(cell);
    return /[",;\t]/.test(text) || text !== text.trim() ? `"${text.replaceAll('"', '""')}"` : text;
  };
  return rows.map((row) => `${row.map(cellText).join(",")}\n`).join("");
}

const unguarded = (text: string): string => (GUARDED_FORMULA.test(text) ? text.slice(1) : text);
