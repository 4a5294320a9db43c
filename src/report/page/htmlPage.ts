import { type Child, element } from "../chart/element.js";
import { pageStyle } from "./pageStyle.js";
import { printedHead, type SheetHead, sheetHead } from "./sheetHead.js";

/**
 * A whole page in the look of the figures: one file, no scripts, nothing fetched. Its markup is XML as well. A sheet for
 * the bench has a head, which stands on every printed page too.
 */
export function htmlPage(title: string, children: readonly Child[], head?: SheetHead): string {
  const page = element(
    "html",
    { lang: "en" },
    element(
      "head",
      {},
      element("meta", { charset: "utf-8" }),
      element("meta", { name: "viewport", content: "width=device-width, initial-scale=1" }),
      element("meta", { name: "color-scheme", content: "light dark" }),
      element("title", {}, title),
      element("style", {}, pageStyle() + printedHead(title, head)),
    ),
    element(
      "body",
      {},
      element("main", {}, element("h1", {}, title), ...(head ? [sheetHead(head)] : []), ...children),
    ),
  );
  return `<!doctype html>\n${page.markup}\n`;
}
