/** A figure as SVG text that notebooks show as a picture. */
export interface NotebookFigure {
  readonly svg: string;
  /** The SVG text. */
  toString(): string;
  /** `Symbol.for("Jupyter.display")`: what Deno's Jupyter kernel asks a value for. */
  readonly [display: symbol]: () => Readonly<Record<string, string>>;
}

/** Wraps SVG text: `String(figure)` and `figure.svg` are the text, and a notebook cell that ends in it shows it. */
export function notebookFigure(svg: string): NotebookFigure {
  return {
    svg,
    toString: () => svg,
    [Symbol.for("Jupyter.display")]: () => ({ "image/svg+xml": svg }),
  };
}
