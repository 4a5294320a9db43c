import { type Child, element, type Markup } from "../chart/element.js";
import type { Table } from "../words/table.js";

/** A table under a caption; the first cell of a row is its head. A table wider than the page scrolls by itself. */
export function htmlTable(caption: string, { head, rows, right }: Table): Markup {
  const className = (column: number) => (right.includes(column) ? "number" : undefined);
  return captioned(
    { caption },
    head.map((text, i) => element("th", { scope: "col", class: className(i) }, text)),
    rows.map((cells) =>
      cells.map((text, i) =>
        i === 0 ? element("th", { scope: "row" }, text) : element("td", { class: className(i) }, text),
      ),
    ),
  );
}

/** A table of cells that are made already. */
export function captioned(
  { caption, className }: { readonly caption: string; readonly className?: string },
  head: readonly Child[],
  rows: readonly (readonly Child[])[],
): Markup {
  return element(
    "div",
    { class: "scroll" },
    element(
      "table",
      { class: className },
      element("caption", {}, caption),
      element("thead", {}, element("tr", {}, ...head)),
      element("tbody", {}, ...rows.map((cells) => element("tr", {}, ...cells))),
    ),
  );
}
