/**
 * Characters that no name, id or line needs and that can make a terminal or a reader show something else: controls
 * (escape sequences begin with one), marks that turn the direction of writing (Unicode's Bidi_Control), halves of
 * surrogate pairs and non-characters.
 */
const UNPRINTABLE = /[\p{Cc}\p{Cs}\p{Bidi_Control}\uFFFE\uFFFF]/u;
const UNPRINTABLE_IN_LINES = /(?!\n)[\p{Cc}\p{Cs}\p{Bidi_Control}\uFFFE\uFFFF]/gu;

/** Whether a text is one line in which every character shows as itself. */
export function isPrintableLine(text: string): boolean {
  return !UNPRINTABLE.test(text);
}

/**
 * A text for the terminal: its lines are kept, every other character that does not show as itself is written as
 * `\u001b`. JSON keeps its value by this.
 */
export function printable(text: string): string {
  return text.replaceAll(
    UNPRINTABLE_IN_LINES,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
}
