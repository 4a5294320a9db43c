/** Text that is markup already. Whatever is a plain string is escaped on its way in, so nothing slips by. */
export interface Markup {
  readonly markup: string;
}

export type Child = Markup | string;

/** Numbers are written with at most two decimals: a hundredth of a pixel. */
export type Attributes = Readonly<Record<string, string | number | undefined>>;

/**
 * One element that reads the same as SVG, XML and HTML. Attributes that are undefined are left out; an element
 * without children closes itself, one with an empty text does not (`<td></td>`).
 */
export function element(name: string, attributes: Attributes, ...children: readonly Child[]): Markup {
  const start = `<${name}${Object.entries(attributes).map(attributeText).join("")}`;
  if (children.length === 0) return { markup: `${start}/>` };
  const apart = children.every((child) => typeof child !== "string") ? "\n" : "";
  return { markup: `${start}>${children.map(written).join(apart)}</${name}>` };
}

/** `&`, `<`, `>`, `"` as entities; characters that XML cannot hold, such as control codes, as U+FFFD. */
export function escaped(text: string): string {
  return text
    .replaceAll(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, "\uFFFD")
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}

/** A number as it stands in markup: 12.3456 → "12.35", 3.0 → "3", −0 → "0". */
export function rounded(value: number): string {
  return `${Number(value.toFixed(2))}`;
}

function attributeText([key, value]: readonly [string, string | number | undefined]): string {
  if (value === undefined) return "";
  return ` ${key}="${typeof value === "number" ? rounded(value) : escaped(value)}"`;
}

function written(child: Child): string {
  return typeof child === "string" ? escaped(child) : child.markup;
}
