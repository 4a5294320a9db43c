import type { Terminal } from "./terminal.js";

/** The first line in bold on a terminal that shows it; the text as it is everywhere else. */
export function headlineInBold(text: string, { isStyled }: Pick<Terminal, "isStyled">): string {
  if (!isStyled) return text;
  const end = text.indexOf("\n");
  return `\u001b[1m${text.slice(0, end)}\u001b[22m${text.slice(end)}`;
}
