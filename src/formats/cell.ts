import { SIZE_LIMIT } from "../core/check.js";
import { InputError, isInputError } from "../core/InputError.js";
import { typedNumber } from "../core/typedNumber.js";
import { fileText } from "./fileText.js";

/** A piece of a file and where it begins, line and column counted from 1 as editors do. */
export interface Cell {
  readonly text: string;
  readonly line: number;
  readonly column: number;
}

/** More than ten thousand readings need, less than would fill the memory. */
const MOST_LINES = 100 * SIZE_LIMIT;
const MOST_CELLS = 200 * SIZE_LIMIT;
/** Longer lines are no table of spectra; a pattern is not let loose on them. */
const LONGEST_LINE = 100 * SIZE_LIMIT;

/** The place of a cell as `InputError.path` has it. */
export function placeOf({ line, column }: Cell): string {
  return `line ${line}, column ${column}`;
}

/** The lines of a file, each with its place. Throws `too-large`. */
export function linesOf(text: string): readonly Cell[] {
  const lines = fileText(text).split(/\r\n|\n|\r/);
  if (lines.length > MOST_LINES)
    throw new InputError("too-large", "", `${lines.length} lines; at most ${MOST_LINES}`);
  return lines.map((line, i) => {
    const cell = { text: line, line: i + 1, column: 1 };
    if (line.length <= LONGEST_LINE) return cell;
    throw new InputError("too-large", placeOf(cell), `a line of ${line.length} characters`);
  });
}

/** Throws `too-large` once a file has more cells than any table of readings. */
export function checkCellCount(count: number, place: Cell): void {
  if (count > MOST_CELLS) throw new InputError("too-large", placeOf(place), `over ${MOST_CELLS} cells`);
}

/** The number in a cell, without a unit. Throws as `typedNumber` does, with the place and `what` it stands for. */
export function numberIn(cell: Cell, what: string): number {
  const place = placeOf(cell);
  try {
    const { value, unit } = typedNumber(cell.text, place, { isTable: true });
    if (unit === "") return value;
    throw new InputError("wrong-type", place, `"${cell.text.slice(0, 40)}" is not a finite number`);
  } catch (error) {
    if (!isInputError(error)) throw error;
    throw new InputError(error.code, place, `${what}: ${error.reason}`);
  }
}

/** Runs a check; where it refuses entry i of a list, the error tells the place of cell i, else that of `otherwise`. */
export function atCells<T>(cells: readonly Cell[], otherwise: Cell, check: () => T): T {
  try {
    return check();
  } catch (error) {
    if (!isInputError(error)) throw error;
    const index = /\[(\d+)\]/.exec(error.path)?.[1];
    const cell = index === undefined ? undefined : cells[Number(index)];
    throw new InputError(error.code, placeOf(cell ?? otherwise), error.reason);
  }
}
