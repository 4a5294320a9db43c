/** Columns and lines of a screen that every answer fits. */
export const SCREEN_COLUMNS = 80;
export const SCREEN_LINES = 25;

/**
 * Blocks of text one below the other with a blank line between them; empty ones are left out. Lines that are too wide are
 * broken at blanks and go on under their own beginning. What to beware of stands before the last block; what of it finds
 * no room is counted.
 */
export function screenText(blocks: readonly string[], beware: readonly string[] = []): string {
  const said = blocks.filter((block) => block !== "");
  const withNotes = (told: number) => {
    const left = beware.length - told;
    const notes = [...beware.slice(0, told), ...(left > 0 ? [moreToBeware(left)] : [])];
    return joined(said.toSpliced(-1, 0, ...(notes.length > 0 ? [notes.join("\n")] : [])));
  };
  for (let told = beware.length; told > 0; told--) {
    const text = withNotes(told);
    if (linesOf(text) <= SCREEN_LINES) return text;
  }
  return withNotes(0);
}

/** Lines one below the other; empty ones are left out. */
export const lines = (...said: readonly string[]): string => said.filter((line) => line !== "").join("\n");

const moreToBeware = (count: number): string =>
  `Beware: ${count} more ${count === 1 ? "note" : "notes"} with --details.`;

const linesOf = (text: string): number => text.split("\n").length - 1;

const joined = (blocks: readonly string[]): string =>
  `${blocks.map((block) => block.split("\n").flatMap(wrapped).join("\n")).join("\n\n")}\n`;

function wrapped(line: string): readonly string[] {
  if ([...line].length <= SCREEN_COLUMNS) return [line];
  const [indent] = /^(\s*\d+ {2}|\s*- |\s*! |\s*)/.exec(line) ?? [""];
  const under = " ".repeat([...indent].length);
  const lines: string[] = [];
  let current = indent;
  for (const word of line.slice(indent.length).split(" ")) {
    const isFirst = current === indent || current === under;
    const longer = isFirst ? current + word : `${current} ${word}`;
    if (!isFirst && [...longer].length > SCREEN_COLUMNS) {
      lines.push(current);
      current = under + word;
    } else current = longer;
  }
  return [...lines, current];
}
