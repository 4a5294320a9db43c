import { type Grid, gridEnd } from "../../spectra/grid.js";
import { type Interval, linearScale, type Scale } from "../chart/scale.js";

/** The axis of wavelengths over all grids, from end to end; half a step wider on both sides for a single band. */
export function wavelengthScale(grids: readonly Grid[], pixels: Interval, count: number): Scale {
  const first = Math.min(...grids.map(({ start }) => start));
  const last = Math.max(...grids.map(gridEnd));
  const half = first === last ? grids[0].step / 2 : 0;
  return linearScale([first - half, last + half], pixels, count);
}
