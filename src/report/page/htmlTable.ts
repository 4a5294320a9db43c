import { element, type Markup } from "../chart/element.js";

/** An HTML table with a caption; the first cell of a row is its head; columns in `right` hold numbers. */
export function htmlTable(
  caption: string,
  head: readonly string[],
  rows: readonly (readonly string[])[],
  right: readonly number[],
): Markup {
  const className = (column: number) => (right.includes(column) ? "number" : undefined);
  return element(
    "table",
    {},
    element("caption", {}, caption),
    element(
      "thead",
      {},
      element("tr", {}, ...head.map((text, i) => element("th", { scope: "col", class: className(i) }, text))),
    ),
    element(
      "tbody",
      {},
      ...rows.map((cells) =>
        element(
          "tr",
          {},
          ...cells.map((text, i) =>
            i === 0 ? element("th", { scope: "row" }, text) : element("td", { class: className(i) }, text),
          ),
        ),
      ),
    ),
  );
}
