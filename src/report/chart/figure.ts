import { type Child, element } from "./element.js";
import { type NotebookFigure, notebookFigure } from "./notebookFigure.js";
import { FIGURE_CLASS, stylesheet } from "./stylesheet.js";
import { shortened } from "./textWidth.js";

/** Width of every figure in pixels, and what the title takes at its top. */
export const FIGURE_WIDTH = 760;
export const TITLE_HEIGHT = 36;
export const MARGIN = 14;

export interface FigureText {
  readonly title: string;
  /** What a person who cannot see the figure should know of it. */
  readonly description: string;
}

/**
 * A whole figure: paper, title, then its parts. Screen readers get the title as its name and the description; no
 * ids, so that any number of figures can stand in one page.
 */
export function figure(
  { title, description }: FigureText,
  height: number,
  ...parts: readonly Child[]
): NotebookFigure {
  const svg = element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      class: FIGURE_CLASS,
      role: "img",
      width: FIGURE_WIDTH,
      height,
      viewBox: `0 0 ${FIGURE_WIDTH} ${Math.round(height)}`,
    },
    element("title", {}, title),
    element("desc", {}, description),
    element("style", {}, stylesheet()),
    element("rect", { class: "paper", width: FIGURE_WIDTH, height }),
    element("text", { class: "title", x: MARGIN, y: 24 }, shortened(title, FIGURE_WIDTH - 2 * MARGIN, 15.5)),
    ...parts,
  );
  return notebookFigure(svg.markup);
}
