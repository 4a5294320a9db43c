import { LIGHT_PALETTE } from "./palette.js";

/** How one series is told from the others: by colour, by dash and by the shape of its dots. */
export interface SeriesStyle {
  readonly className: string;
  readonly dash?: string;
  readonly shape: DotShape;
}

export type DotShape = "circle" | "square" | "triangle" | "diamond";

const DASHES = [undefined, "7 3", "2 3", "10 3 2 3", "4 2 1 2"];
const SHAPES: readonly DotShape[] = ["circle", "square", "triangle", "diamond"];

/**
 * The style of series 0, 1, 2, …; colours repeat after 6, dashes after 5, shapes after 4, so that no style repeats
 * before 60.
 */
export function seriesStyle(index: number): SeriesStyle {
  const dash = DASHES[index % DASHES.length];
  return {
    className: `series-${index % LIGHT_PALETTE.series.length}`,
    ...(dash !== undefined && { dash }),
    shape: SHAPES[index % SHAPES.length],
  };
}

/** The class of step `index` of `count` in an order, from the dark end of the ramp on light paper to the other. */
export function rampClass(index: number, count: number): string {
  const last = LIGHT_PALETTE.ramp.length - 1;
  return `ramp-${count < 2 ? 0 : Math.round((index * last) / (count - 1))}`;
}
