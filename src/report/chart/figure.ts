import { type Child, element } from "./element.js";
import { type NotebookFigure, notebookFigure } from "./notebookFigure.js";
import { FIGURE_CLASS, stylesheet } from "./stylesheet.js";
import { shortened } from "./textWidth.js";

/** Width of a figure in pixels, of one of two that stand side by side (or alone on a phone), and what the title takes. */
export const FIGURE_WIDTH = 760;
export const HALF_WIDTH = 372;
export const TITLE_HEIGHT = 36;
export const MARGIN = 14;

export interface FigureText {
  readonly title: string;
  /** What a person who cannot see the figure should know of it. */
  readonly description: string;
  /** In pixels; `FIGURE_WIDTH` when absent. */
  readonly width?: number;
}

/**
 * A whole figure: paper, title, then its parts. Screen readers get the title as its name and the description; no
 * ids, so that any number of figures can stand in one page.
 */
export function figure(
  { title, description, width = FIGURE_WIDTH }: FigureText,
  height: number,
  ...parts: readonly Child[]
): NotebookFigure {
  const svg = element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      class: FIGURE_CLASS,
      role: "img",
      width,
      height,
      viewBox: `0 0 ${width} ${Math.round(height)}`,
    },
    element("title", {}, title),
    element("desc", {}, description),
    element("style", {}, stylesheet()),
    element("rect", { class: "paper", width, height }),
    element("text", { class: "title", x: MARGIN, y: 24 }, shortened(title, width - 2 * MARGIN, 15.5)),
    ...parts,
  );
  return notebookFigure(svg.markup);
}
