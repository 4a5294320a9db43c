/** Em per character, on the wide side: the font is the reader's and nobody can measure it here. */
const NARROW = 0.32;
const USUAL = 0.58;
const WIDE = 0.85;
const FULL = 1;

/** About the width in pixels that a text takes at a font size. */
export function textWidth(text: string, size = 12): number {
  let em = 0;
  for (const character of text) em += widthOf(character);
  return em * size;
}

/** The text, or as much of it as has room with "…" at the end. */
export function shortened(text: string, room: number, size = 12): string {
  if (textWidth(text, size) <= room) return text;
  let used = FULL * size;
  let kept = "";
  for (const character of text) {
    used += widthOf(character) * size;
    if (used > room) break;
    kept += character;
  }
  return `${kept.trimEnd()}…`;
}

function widthOf(character: string): number {
  if (/[ijl.,:;'|!()[\] ]/.test(character)) return NARROW;
  if (/[mwMW%@–—]/.test(character)) return WIDE;
  return (character.codePointAt(0) ?? 0) >= 0x2e80 ? FULL : USUAL;
}
