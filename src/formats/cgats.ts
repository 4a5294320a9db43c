import { InputError } from "../core/InputError.js";
import { type Cell, checkCellCount, linesOf, numberIn, placeOf } from "./cell.js";

/** One table of a CGATS.17 text: its keywords, then fields and sets. */
export interface CgatsTable {
  /** The last value given to each keyword before the data; none where a keyword stands alone. */
  readonly keywords: ReadonlyMap<string, Cell>;
  readonly fields: readonly Cell[];
  readonly sets: readonly (readonly Cell[])[];
}

/** A quoted END_DATA is a value, not the end. */
interface Token extends Cell {
  readonly quoted: boolean;
}

/**
 * The tables of a CGATS.17 (ISO 28178) text: keyword lines, fields between BEGIN_DATA_FORMAT and END_DATA_FORMAT, sets
 * between BEGIN_DATA and END_DATA wherever their lines end. Throws `wrong-format` where there is no table,
 * `unreadable-cgats`, and `wrong-length` where the counts that the file gives or needs do not hold.
 */
export function cgatsTables(text: string): readonly CgatsTable[] {
  const tables: CgatsTable[] = [];
  let keywords = new Map<string, Cell>();
  let fields: Cell[] = [];
  let data: Cell[] = [];
  let open: Cell | undefined;
  let count = 0;
  for (const line of linesOf(text)) {
    const tokens = cgatsTokens(line);
    count += tokens.length;
    checkCellCount(count, line);
    for (const token of tokens) {
      const word = token.quoted ? "" : token.text;
      if (word === "BEGIN_DATA_FORMAT" || word === "BEGIN_DATA") {
        if (open) throw unreadable(token, `${word} inside ${open.text} of line ${open.line}`);
        open = token;
      } else if (word === "END_DATA_FORMAT" || word === "END_DATA") {
        if (open?.text !== word.replace("END", "BEGIN"))
          throw unreadable(token, `${word} without its beginning`);
        open = undefined;
        if (word === "END_DATA_FORMAT") continue;
        tables.push({ keywords, fields, sets: setsOf(data, fields, keywords, token) });
        [keywords, fields, data] = [new Map(), [], []];
      } else if (open?.text === "BEGIN_DATA") data.push(token);
      else if (open) fields.push(token);
      else {
        if (tokens[1]) keywords.set(token.text, tokens[1]);
        break;
      }
    }
  }
  if (open) throw unreadable(open, `${open.text} without its end`);
  if (tables.length === 0) throw new InputError("wrong-format", "", "no table of CGATS data");
  return tables;
}

/** Words and quoted texts of a line up to a comment; a quote inside a quoted text stands twice. */
function cgatsTokens({ text, line }: Cell): readonly Token[] {
  const pattern = /(\s*)(?:#.*|"((?:[^"]|"")*)"(?=\s|$)|([^\s"]+)(?=\s|$)|$)/y;
  const tokens: Token[] = [];
  while (pattern.lastIndex < text.length) {
    const start = pattern.lastIndex + 1;
    const found = pattern.exec(text);
    if (!found) throw unreadable({ text, line, column: start }, "quotes must stand around a whole value");
    const [, blanks, quoted, word] = found;
    const token = quoted?.replaceAll('""', '"') ?? word;
    if (token === undefined) continue;
    tokens.push({ text: token, line, column: start + blanks.length, quoted: quoted !== undefined });
  }
  return tokens;
}

function setsOf(
  data: readonly Cell[],
  fields: readonly Cell[],
  keywords: ReadonlyMap<string, Cell>,
  end: Cell,
): readonly (readonly Cell[])[] {
  const width = fields.length;
  if (width === 0) throw unreadable(end, "data without a data format");
  const announced = (keyword: string, there: number) => {
    const cell = keywords.get(keyword);
    if (cell === undefined || numberIn(cell, keyword) === there) return;
    throw new InputError("wrong-length", placeOf(cell), `${cell.text} announced, ${there} there`);
  };
  announced("NUMBER_OF_FIELDS", width);
  if (data.length % width !== 0) {
    const short = data.find((cell, i) => i % width === 0 && data[i + width - 1]?.line !== cell.line) ?? end;
    const reason = `${data.length} values do not fill sets of ${width} fields`;
    throw new InputError("wrong-length", placeOf(short), reason);
  }
  const count = data.length / width;
  announced("NUMBER_OF_SETS", count);
  return Array.from({ length: count }, (_, i) => data.slice(i * width, (i + 1) * width));
}

const unreadable = (cell: Cell, reason: string) => new InputError("unreadable-cgats", placeOf(cell), reason);
