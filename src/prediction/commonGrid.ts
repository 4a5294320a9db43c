import { InputError } from "../core/InputError.js";
import { type Grid, gridEnd } from "../spectra/grid.js";
import type { Reading } from "../surface/reading.js";

/**
 * The part of the toners' grid that every reading covers, so that nothing is extrapolated. Throws `outside-grid`
 * when fewer than six bands are left: no colour can be told from them.
 */
export function commonGrid(tonerGrid: Grid, readings: readonly Reading[], path: string): Grid {
  const low = Math.max(...readings.map(({ grid }) => grid.start));
  const high = Math.min(...readings.map(({ grid }) => gridEnd(grid)));
  const { start, step, count } = tonerGrid;
  const slack = 1e-9;
  const first = Math.max(0, Math.ceil((low - start) / step - slack));
  const last = Math.min(count - 1, Math.floor((high - start) / step + slack));
  if (last - first < 5) {
    throw new InputError(
      "outside-grid",
      path,
      `the readings share ${low}–${high} nm, the toners have ${start}–${gridEnd(tonerGrid)} nm: too little in common`,
    );
  }
  return { start: start + first * step, step, count: last - first + 1 };
}
