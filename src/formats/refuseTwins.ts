import { pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";

/** The records (with their keys so far) and lists that enclose a place of a text, outermost first. */
interface Level {
  readonly keys?: Set<string>;
  path: string;
  count: number;
}

/** Characters that make the structure; the rest is skipped. */
const MARK = /["{}[\],]/g;

/** Refuses a text, known to be JSON, in which a key stands twice in one record. Throws `duplicate` with its place. */
export function refuseTwins(text: string): void {
  const levels: Level[] = [];
  const mark = new RegExp(MARK);
  let parent = "";
  let awaitsKey = false;
  for (let found = mark.exec(text); found; found = mark.exec(text)) {
    const level = levels.at(-1);
    switch (found[0]) {
      case "{":
      case "[": {
        const path = level && !level.keys ? `${level.path}[${level.count}]` : parent;
        awaitsKey = found[0] === "{";
        levels.push({ path, count: 0, ...(awaitsKey && { keys: new Set<string>() }) });
        break;
      }
      case "}":
      case "]":
        levels.pop();
        awaitsKey = false;
        break;
      case ",":
        if (level) level.count++;
        awaitsKey = level?.keys !== undefined;
        break;
      default: {
        mark.lastIndex = endOfString(text, found.index);
        if (!awaitsKey || !level?.keys) break;
        const key: string = JSON.parse(text.slice(found.index, mark.lastIndex));
        parent = pathTo(level.path, key);
        if (level.keys.has(key)) {
          const reason = `the key stands twice in one record, again in ${placeAt(text, found.index)}`;
          throw new InputError("duplicate", parent, reason);
        }
        level.keys.add(key);
        awaitsKey = false;
      }
    }
  }
}

/** Behind the quote that ends the string that begins at `start`: the next one without an odd number of backslashes. */
function endOfString(text: string, start: number): number {
  let end = start;
  let slashes: number;
  do {
    end = text.indexOf('"', end + 1);
    slashes = 0;
    while (text[end - 1 - slashes] === "\\") slashes++;
  } while (slashes % 2 === 1);
  return end + 1;
}

function placeAt(text: string, index: number): string {
  const lines = text.slice(0, index).split("\n");
  return `line ${lines.length}, column ${(lines.at(-1)?.length ?? 0) + 1}`;
}
