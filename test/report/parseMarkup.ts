import { SaxesParser } from "saxes";

export interface Node {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Node[];
  /** Text directly inside. */
  text: string;
}

/** The tree of an XML text, by a conforming parser; throws at the first thing that is not well formed. */
export function parseMarkup(text: string): Node {
  const root: Node = { name: "", attributes: {}, children: [], text: "" };
  const open = [root];
  const parser = new SaxesParser();
  parser.on("error", (error) => {
    throw error;
  });
  parser.on("opentag", ({ name, attributes }) => {
    const node: Node = { name, attributes, children: [], text: "" };
    open[open.length - 1].children.push(node);
    open.push(node);
  });
  parser.on("text", (more) => {
    open[open.length - 1].text += more;
  });
  parser.on("closetag", () => {
    open.pop();
  });
  parser.write(text).close();
  return root.children[0];
}

/** A node and all below it. */
export function everyNode(node: Node): readonly Node[] {
  return [node, ...node.children.flatMap(everyNode)];
}

/** Every text of the elements of one name. */
export function textsOf(node: Node, name: string): readonly string[] {
  return everyNode(node)
    .filter((other) => other.name === name)
    .map(({ text }) => text);
}
