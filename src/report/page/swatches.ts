import { srgbHex } from "../../colorimetry/colorjs.js";
import type { Lab } from "../../colorimetry/lab.js";
import { element, type Markup } from "../chart/element.js";
import { FIGURE_CLASS, stylesheet } from "../chart/stylesheet.js";
import { shortened } from "../chart/textWidth.js";
import { decimals } from "../words/decimals.js";

/** A colour and what it is. */
export interface Swatch {
  readonly name: string;
  readonly lab: Lab;
}

const WIDTH = 78;
const HEIGHT = 34;
const TEXT = 20;

/**
 * Colours side by side without a gap, since a gap hides small differences, each with its name below; an asterisk where
 * sRGB cannot show it (`srgbHex`).
 */
export function swatches(title: string, colours: readonly Swatch[]): Markup {
  const shown = colours.map(({ name, lab }) => ({ name, lab, ...srgbHex(lab) }));
  const width = WIDTH * colours.length;
  const described = shown.map(
    ({ name, lab, mapped }) =>
      `${name}: L* a* b* ${lab.map((value) => decimals(value, 1)).join(", ")}${mapped ? ", outside what a screen shows" : ""}`,
  );
  return element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      class: FIGURE_CLASS,
      role: "img",
      width,
      height: HEIGHT + TEXT,
      viewBox: `0 0 ${width} ${HEIGHT + TEXT}`,
    },
    element("title", {}, title),
    element("desc", {}, `${described.join("; ")}.`),
    element("style", {}, stylesheet()),
    ...shown.flatMap(({ name, hex, mapped }, i) => [
      element("rect", {
        x: i * WIDTH,
        y: 0,
        width: WIDTH,
        height: HEIGHT,
        fill: hex,
        // A soft edge between two colours is a colour of its own.
        "shape-rendering": "crispEdges",
      }),
      element(
        "text",
        { x: i * WIDTH + WIDTH / 2, y: HEIGHT + 15, "text-anchor": "middle" },
        `${shortened(name, WIDTH - 10)}${mapped ? "*" : ""}`,
      ),
    ]),
  );
}
