import type { Warning } from "../../core/warning.js";
import { type Child, element, type Markup } from "../chart/element.js";

/** A part of a page under a heading of its own. */
export function section(title: string, ...children: readonly Child[]): Markup {
  return element("section", {}, element("h2", {}, title), ...children);
}

/** What must not be overlooked, a line each; nothing where there are none. */
export function listed(title: string, lines: readonly string[]): readonly Markup[] {
  if (lines.length === 0) return [];
  const list = element("ul", {}, ...lines.map((text) => element("li", {}, text)));
  return [element("section", { class: "warnings" }, element("h2", {}, title), list)];
}

/** All warnings of an answer, each with its place in the job. */
export function beware(warnings: readonly Warning[], title = "Beware"): readonly Markup[] {
  return listed(
    title,
    warnings.map(({ message, path }) => (path ? `${path}: ${message}` : message)),
  );
}
