import { element, type Markup } from "../chart/element.js";
import type { Table } from "../words/table.js";
import { captioned } from "./htmlTable.js";

/**
 * Pours for the bench: the amounts large, beside each a box to tick and room to write what was really poured; what else is
 * said of a pour stands under its name. The columns are number, name, amount and what the scale shows, then a remark where
 * there is one.
 */
export function pourTable(caption: string, { head, rows }: Table): Markup {
  const [, name, amount, onScale] = head;
  return captioned(
    { caption, className: "pours" },
    [
      element("th", { scope: "col" }, "no."),
      element("th", { scope: "col" }, name),
      element("th", { scope: "col", class: "number" }, amount),
      element("th", { scope: "col", class: "number" }, onScale),
      element("th", { scope: "col" }, "done"),
      element("th", { scope: "col" }, "really poured"),
    ],
    rows.map(([number, toner, grams, shown, remark = ""]) => [
      element("td", {}, number),
      element(
        "th",
        { scope: "row" },
        element("span", {}, toner),
        ...(remark === "" ? [] : [element("span", { class: "note" }, remark)]),
      ),
      element("td", { class: "number amount" }, grams),
      element("td", { class: "number" }, shown),
      element("td", {}, element("span", { class: "tick" }, "")),
      element("td", { class: "written" }, ""),
    ]),
  );
}
