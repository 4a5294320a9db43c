import { SaxesParser } from "saxes";
import { InputError } from "../core/InputError.js";
import { type Cell, placeOf } from "./cell.js";
import { fileText } from "./fileText.js";

/** An element with its namespace; `text` is what stands between its tags outside its children. */
export interface XmlElement extends Cell {
  readonly namespace: string;
  readonly name: string;
  /** Attributes without a namespace, by name. */
  readonly attributes: Readonly<Partial<Record<string, string>>>;
  readonly children: readonly XmlElement[];
}

/** More elements than ten thousand readings need, fewer than would fill the memory. */
const MOST_ELEMENTS = 1_000_000;
/**
 * Deepest nesting that is accepted. CxF3 nests about ten deep; the parser searches all open elements for a namespace.
 */
const DEEPEST = 100;

interface OpenElement extends XmlElement {
  text: string;
  readonly children: OpenElement[];
}

/**
 * The root element of an XML text, well-formed with namespaces. A DOCTYPE is refused, so that no entities but the five
 * of XML itself are ever expanded. Throws `unreadable-xml` with line and column, and `too-large`.
 */
export function parseXml(text: string): XmlElement {
  const parser = new SaxesParser({ xmlns: true });
  const above: OpenElement[] = [];
  let root: OpenElement | undefined;
  let count = 0;
  let place: Cell = { text: "", line: 1, column: 1 };
  const here = (): Cell => ({ text: "", line: parser.line, column: Math.max(1, parser.columnIndex) });
  const refuse = (reason: string): never => {
    throw new InputError("unreadable-xml", placeOf(here()), reason);
  };

  parser.on("doctype", () => refuse("a DOCTYPE is not read"));
  parser.on("error", ({ message }) => refuse(message.replace(/^\d+:\d+: /, "")));
  parser.on("opentagstart", ({ name }) => {
    place = { ...here(), column: Math.max(1, parser.columnIndex - name.length - 1) };
    count++;
    if (count <= MOST_ELEMENTS && above.length < DEEPEST) return;
    const reason = `over ${MOST_ELEMENTS} elements, or over ${DEEPEST} inside one another`;
    throw new InputError("too-large", placeOf(place), reason);
  });
  parser.on("opentag", ({ local, uri, attributes }) => {
    const plain = Object.values(attributes).filter((attribute) => attribute.prefix === "");
    const element: OpenElement = {
      text: "",
      line: place.line,
      column: place.column,
      namespace: uri,
      name: local,
      attributes: Object.fromEntries(plain.map((attribute) => [attribute.local, attribute.value])),
      children: [],
    };
    above.at(-1)?.children.push(element);
    root ??= element;
    above.push(element);
  });
  const addText = (piece: string): void => {
    const element = above.at(-1);
    if (element) element.text += piece;
  };
  parser.on("text", addText);
  parser.on("cdata", addText);
  parser.on("closetag", () => {
    above.pop();
  });
  parser.write(fileText(text)).close();
  return root ?? refuse("no element");
}

/** An element as text; attributes left undefined are left out. Line ends do not survive inside attributes. */
export function xmlText(
  name: string,
  attributes: Readonly<Record<string, string | number | undefined>>,
  content: string | readonly string[],
): string {
  const said = Object.entries(attributes).filter(([, value]) => value !== undefined);
  const start = [name, ...said.map(([key, value]) => `${key}="${escaped(String(value))}"`)].join(" ");
  if (content.length === 0) return `<${start}/>`;
  const inside = typeof content === "string" ? escaped(content) : `\n${content.join("\n")}\n`;
  return `<${start}>${inside}</${name}>`;
}

const ENTITIES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };
const escaped = (text: string): string => text.replaceAll(/[&<>"]/g, (character) => ENTITIES[character]);
