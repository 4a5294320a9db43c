import { InputError } from "../core/InputError.js";
import { covers, GRID, type Grid, gridEnd, sameGrid } from "./grid.js";
import { lagrangeStencil } from "./lagrange.js";
import { SPECTRUM, type Spectrum } from "./spectrum.js";
import { extendForSprague, spragueAt } from "./sprague.js";

/**
 * Six-point (quintic) Sprague interpolation onto `target`, recommended by CIE 167:2005 for uniform spectra.
 * Exact for quartics two intervals away from the ends, for straight lines everywhere. Identity when the grids
 * coincide.
 * Throws `outside-grid` when the target reaches beyond the source (nothing is extrapolated), `wrong-length` when the
 * source has fewer than six points or not as many as its grid, `not-finite` and the like.
 */
export function checkedResampleSprague(source: Spectrum, target: Grid, path = ""): Spectrum {
  return resampleSprague(SPECTRUM.check(source, "source"), GRID.check(target, "target"), path);
}

/** The same of spectra that were looked at before. */
export function resampleSprague(source: Spectrum, target: Grid, path = ""): Spectrum {
  if (sameGrid(source.grid, target)) return source;
  checkCovered(source.grid, target, path);
  if (source.grid.count < 6) {
    throw new InputError("wrong-length", path, `Sprague needs 6 points; there are ${source.grid.count}`);
  }
  const extended = extendForSprague(source.values);
  return resampled(source.grid, target, (position) => spragueAt(extended, position));
}

/**
 * Lagrange interpolation onto `target`: cubic inside, quadratic in the two end intervals (ASTM E2022).
 * Exact for quadratics. Identity when the grids coincide. Throws as `resampleSprague` does.
 */
export function checkedResampleLagrange(source: Spectrum, target: Grid, path = ""): Spectrum {
  return resampleLagrange(SPECTRUM.check(source, "source"), GRID.check(target, "target"), path);
}

/** The same of spectra that were looked at before. */
export function resampleLagrange(source: Spectrum, target: Grid, path = ""): Spectrum {
  if (sameGrid(source.grid, target)) return source;
  checkCovered(source.grid, target, path);
  const { values } = source;
  const c = new Float64Array(4);
  return resampled(source.grid, target, (position) => {
    const first = lagrangeStencil(position, values.length, c);
    const inner = c[0] * values[first] + c[1] * values[first + 1] + c[2] * values[first + 2];
    return c[3] === 0 ? inner : inner + c[3] * values[first + 3];
  });
}

function checkCovered(source: Grid, target: Grid, path: string): void {
  if (covers(source, target)) return;
  throw new InputError(
    "outside-grid",
    path,
    `${target.start}–${gridEnd(target)} nm is wanted of data from ${source.start}–${gridEnd(source)} nm`,
  );
}

function resampled(source: Grid, target: Grid, at: (position: number) => number): Spectrum {
  const values = new Float64Array(target.count);
  for (let i = 0; i < target.count; i++) {
    const position = (target.start + target.step * i - source.start) / source.step;
    values[i] = at(Math.max(0, Math.min(position, source.count - 1)));
  }
  return { grid: target, values };
}
