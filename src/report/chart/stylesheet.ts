import { DARK_PALETTE, LIGHT_PALETTE, type Palette } from "./palette.js";

/** The class of every figure; all rules stand under it, so that a page around it keeps its own look. */
export const FIGURE_CLASS = "masstone-figure";

/**
 * The style of a figure, the same for all. Plain rules without variables, which simple SVG programs know too; the
 * dark ones hold on screens only, so paper stays white.
 */
export function stylesheet(): string {
  return [
    rule("", "font-family:system-ui,sans-serif;font-size:12px"),
    rule("text", "stroke:none"),
    rule(".title", "font-size:15px;font-weight:600"),
    rule(".on-data", "paint-order:stroke;stroke-width:4px;stroke-linejoin:round"),
    ...colours(LIGHT_PALETTE),
    `@media screen and (prefers-color-scheme:dark){${colours(DARK_PALETTE).join("")}}`,
  ].join("");
}

function colours({ paper, ink, quiet, grid, series, ramp }: Palette): readonly string[] {
  return [
    rule("", `color:${ink}`),
    rule(".paper", `fill:${paper}`),
    rule("text", `fill:${ink}`),
    rule("text.quiet", `fill:${quiet}`),
    rule(".on-data", `stroke:${paper}`),
    rule(".grid", `stroke:${grid}`),
    rule(".axis", `stroke:${quiet}`),
    rule(".unknown", `color:${quiet}`),
    ...series.map((colour, i) => rule(`.series-${i}`, `color:${colour}`)),
    ...ramp.map((colour, i) => rule(`.ramp-${i}`, `color:${colour}`)),
  ];
}

function rule(selector: string, body: string): string {
  return `.${FIGURE_CLASS}${selector === "" ? "" : ` ${selector}`}{${body}}`;
}
