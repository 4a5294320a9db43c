import { InputError } from "../core/InputError.js";
import { type Grid, gridEnd } from "../spectra/grid.js";
import type { Reading } from "../surface/reading.js";

/** Fewer tell no colour (our choice). */
const LEAST_BANDS = 6;

/**
 * The part of the toners' grid that every reading covers, so that nothing is extrapolated. Throws `outside-grid`
 * when fewer than six bands are left.
 */
export function commonGrid(tonerGrid: Grid, readings: readonly Reading[], path: string): Grid {
  const low = Math.max(...readings.map(({ grid }) => grid.start));
  const high = Math.min(...readings.map(({ grid }) => gridEnd(grid)));
  const { start, step, count } = tonerGrid;
  const slack = 1e-9;
  const first = Math.max(0, Math.ceil((low - start) / step - slack));
  const last = Math.min(count - 1, Math.floor((high - start) / step + slack));
  const shared = Math.max(0, last - first + 1);
  if (shared < LEAST_BANDS) {
    throw new InputError(
      "outside-grid",
      path,
      `the readings share ${low}–${high} nm, the toners have ${start}–${gridEnd(tonerGrid)} nm every ${step} nm: ${shared} bands in common, at least ${LEAST_BANDS} are needed`,
    );
  }
  return { start: start + first * step, step, count: shared };
}
