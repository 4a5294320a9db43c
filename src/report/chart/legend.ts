import type { Point } from "./area.js";
import { band } from "./band.js";
import { dots } from "./dots.js";
import { element, type Markup } from "./element.js";
import { hatch } from "./hatch.js";
import { line } from "./line.js";
import type { SeriesStyle } from "./seriesStyle.js";
import { shortened, textWidth } from "./textWidth.js";

export interface LegendEntry {
  readonly text: string;
  readonly style: SeriesStyle;
  /** What of the series is meant (a band with its line); a line with dots when absent. */
  readonly mark?: "line" | "dots" | "band" | "hatch";
}

const KEY = 26;
const ROW = 19;
const APART = 18;

/**
 * Keys and texts in rows between the heading and the data, where they cover nothing; `height` is what they take.
 * `top` is the upper edge of the first row.
 */
export function legend(
  entries: readonly LegendEntry[],
  { left, top, width }: { readonly left: number; readonly top: number; readonly width: number },
): { readonly markup: Markup; readonly height: number } {
  let x = left;
  let row = 0;
  const keys = entries.map(({ text, style, mark }) => {
    const shown = shortened(text, width - KEY - 6);
    const needed = KEY + 6 + textWidth(shown);
    if (x > left && x + needed > left + width) {
      x = left;
      row += 1;
    }
    const middle = top + row * ROW + ROW / 2;
    const key = element(
      "g",
      {},
      ...keyMarks(x, middle, style, mark),
      element("text", { x: x + KEY + 6, y: middle + 4 }, shown),
    );
    x += needed + APART;
    return key;
  });
  return { markup: element("g", {}, ...keys), height: entries.length === 0 ? 0 : (row + 1) * ROW };
}

function keyMarks(x: number, y: number, style: SeriesStyle, mark: LegendEntry["mark"]): readonly Markup[] {
  const lying = (dy: number): readonly Point[] => [
    [x, y + dy],
    [x + KEY, y + dy],
  ];
  if (mark === "hatch") return [hatch({ left: x, top: y - 6, width: KEY, height: 12 }, style.className)];
  if (mark === "band") return [band(lying(6), lying(-6), style.className), line(lying(0), style)];
  return [
    ...(mark === "dots" ? [] : [line(lying(0), style)]),
    ...(mark === "line" ? [] : [dots([[x + KEY / 2, y]], style, 3.2)]),
  ];
}
