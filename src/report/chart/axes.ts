import type { Area } from "./area.js";
import { type Child, element, type Markup } from "./element.js";
import type { Scale } from "./scale.js";

/** Room that tick labels and titles take around an area, in pixels. */
export const AXIS_ROOM = Object.freeze({ left: 58, right: 16, top: 28, bottom: 40 });

/** The title above begins left of the area, at the margin of the figure. */
const TITLE_OUTDENT = 44;

export interface AxisTitles {
  /** Below; without it the ticks below get no labels, as when another area with the same axis follows. */
  readonly x?: string;
  /** Above the axis, lying, since standing text is hard to read. */
  readonly y: string;
}

/** Grid lines, tick labels and titles around an area. */
export function axes(area: Area, x: Scale, y: Scale, titles: AxisTitles): Markup {
  const { left, top, width, height } = area;
  const bottom = top + height;
  const lying = y.ticks.flatMap(({ value, label }): readonly Child[] => {
    const at = y.at(value);
    return [
      element("path", { class: "grid", d: `M${left} ${at.toFixed(2)}h${width}` }),
      textAt(left - 7, at + 4, "end", label),
    ];
  });
  const standing = x.ticks.flatMap(({ value, label }): readonly Child[] => {
    const at = x.at(value);
    const mark = element("path", { class: "axis", d: `M${at.toFixed(2)} ${bottom}v4` });
    return titles.x === undefined ? [mark] : [mark, textAt(at, bottom + 17, "middle", label)];
  });
  return element(
    "g",
    { fill: "none" },
    ...lying,
    ...standing,
    element("path", { class: "axis", d: `M${left} ${bottom}h${width}` }),
    textAt(left - TITLE_OUTDENT, top - 14, "start", titles.y),
    ...(titles.x === undefined ? [] : [textAt(left + width / 2, bottom + 34, "middle", titles.x)]),
  );
}

function textAt(x: number, y: number, anchor: "start" | "middle" | "end", text: string): Markup {
  return element("text", { class: "quiet", x, y, "text-anchor": anchor }, text);
}
