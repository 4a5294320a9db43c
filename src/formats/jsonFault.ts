/** One token after blanks, as ECMA-404 has them: a mark, a string, or a number or word. */
const TOKEN =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: the standard keeps just these out of strings.
  /[ \t\n\r]*(?:([[\]{}:,])|("[^"\\\u0000-\u001f]*(?:\\(?:["\\/bfnrt]|u[\da-fA-F]{4})[^"\\\u0000-\u001f]*)*")|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null)/y;
const BLANKS = /[ \t\n\r]*/y;

type Wanted = "value" | "value or end" | "key" | "key or end" | "colon" | "comma or end";

/**
 * Where a text stops being JSON (ECMA-404): the index of the first token that cannot stand there, the length of a text
 * that ends too early, -1 for JSON. What engines say instead repeats the text, which may be somebody's secret.
 */
export function jsonFault(text: string): number {
  const open: string[] = [];
  let wanted: Wanted = "value";
  for (let at = 0; ; at = TOKEN.lastIndex) {
    BLANKS.lastIndex = TOKEN.lastIndex = at;
    BLANKS.exec(text);
    const start = BLANKS.lastIndex;
    const isDone = open.length === 0 && wanted === "comma or end";
    if (start === text.length) return isDone ? -1 : start;
    const token = TOKEN.exec(text);
    if (token === null || isDone) return start;
    const [, mark, string] = token;
    const next = afterToken(wanted, open, mark, string !== undefined);
    if (next === undefined) return start;
    wanted = next;
  }
}

/** What may follow a token, `open` brought up to date; nothing where the token may not stand. */
function afterToken(
  wanted: Wanted,
  open: string[],
  mark: string | undefined,
  isString: boolean,
): Wanted | undefined {
  const inside = open.at(-1);
  if (mark === (inside === "{" ? "}" : "]") && wanted.endsWith("or end") && inside !== undefined) {
    open.pop();
    return "comma or end";
  }
  if (wanted === "colon") return mark === ":" ? "value" : undefined;
  if (wanted === "comma or end") return mark === "," ? (inside === "{" ? "key" : "value") : undefined;
  if (wanted.startsWith("key")) return isString ? "colon" : undefined;
  if (mark === undefined) return "comma or end";
  if (mark !== "{" && mark !== "[") return undefined;
  open.push(mark);
  return mark === "{" ? "key or end" : "value or end";
}
