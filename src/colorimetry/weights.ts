import { checkRecord, pathTo } from "../core/check.js";
import { InputError } from "../core/InputError.js";
import { numbers } from "../core/shape/list.js";
import { record } from "../core/shape/record.js";
import { rule } from "../core/shape/rule.js";
import {
  checkBands,
  covers,
  GRID,
  type Grid,
  gridEnd,
  LONGEST_NM,
  SHORTEST_NM,
  wavelengths,
} from "../spectra/grid.js";
import { lagrangeStencil } from "../spectra/lagrange.js";
import { resampleSprague } from "../spectra/resample.js";
import type { Spectrum } from "../spectra/spectrum.js";
import { type IlluminantName, illuminantSpectrum } from "./illuminant.js";
import { type ObserverId, standardObserver } from "./observer.js";
import type { BandWeights, Xyz } from "./xyz.js";

/** What reflectances on `grid` are multiplied with to give X, Y, Z; `white` is what the perfect diffuser gives. */
export interface TristimulusWeights extends BandWeights {
  readonly grid: Grid;
  readonly white: Xyz;
}

/** What tristimulus weights are for. */
export interface WeightOptions {
  /** Of the reflectances: inside 360–830 nm, step at most 20 nm. */
  readonly grid: Grid;
  /** A CIE illuminant by name, or a lamp of one's own: every 5 nm or finer, covering 380–780 nm. */
  readonly illuminant: IlluminantName | Spectrum;
  readonly observer: ObserverId;
}

/** Spectral power of a lamp: nothing below 0. */
const LAMP = rule(record<Spectrum>({ grid: GRID, values: numbers({ min: 0 }) }), ({ grid, values }, path) =>
  checkBands(values, grid, pathTo(path, "values")),
);

const COARSEST_REFLECTANCE_NM = 20;
const COARSEST_ILLUMINANT_NM = 5;
const LEAST_ILLUMINANT: Grid = { start: 380, step: 400, count: 2 };

/**
 * Tristimulus weights W = k Σ S(λ) x̄(λ) L(λ) by ASTM E2022: reflectance between bands by Lagrange L, bands missing
 * towards 360 and 830 nm folded into the end bands (ASTM E308), k such that the white has Y = 100.
 * The sum runs over the wavelengths at which the illuminant is tabulated, x̄ coming to them by Sprague; so the
 * white is the same for every reflectance grid. Throws as `GRID`, `illuminantSpectrum` and
 * `standardObserver` do, `out-of-range` for too coarse steps, `outside-grid` for an illuminant that ends early.
 */
export function tristimulusWeights(options: WeightOptions): TristimulusWeights {
  checkRecord(options, "options");
  const { grid, illuminant, observer } = options;
  checkReflectanceGrid(grid);
  const light =
    typeof illuminant === "string" ? illuminantSpectrum(illuminant, "illuminant") : ownLight(illuminant);
  const eye = standardObserver(observer, "observer");
  const matching = [eye.x, eye.y, eye.z].map(
    (values) => resampleSprague({ grid: eye.grid, values }, light.grid).values,
  );
  const weights = fold(light, matching, grid);
  const luminance = total(weights[1]);
  if (luminance === 0) throw new InputError("out-of-range", "illuminant.values", "the lamp gives no light");
  const scale = 100 / luminance;
  const [x, y, z] = weights.map((values) => values.map((value) => scale * value));
  return { grid, x, y, z, white: [total(x), total(y), total(z)] };
}

/** Σ S(λ) x̄(λ) L(λ) on the grid continued over the whole visible range, with what lies beyond it folded in. */
function fold(light: Spectrum, matching: readonly ArrayLike<number>[], grid: Grid): readonly Float64Array[] {
  const before = Math.floor((grid.start - SHORTEST_NM) / grid.step + 1e-9);
  const after = Math.floor((LONGEST_NM - gridEnd(grid)) / grid.step + 1e-9);
  const start = grid.start - before * grid.step;
  const count = before + grid.count + after;
  const weights = matching.map(() => new Float64Array(grid.count));
  const c = new Float64Array(4);
  wavelengths(light.grid).forEach((nm, i) => {
    const position = Math.max(0, Math.min((nm - start) / grid.step, count - 1));
    const first = lagrangeStencil(position, count, c) - before;
    for (let k = 0; k < 4; k++) {
      const band = Math.max(0, Math.min(first + k, grid.count - 1));
      for (let axis = 0; axis < 3; axis++) {
        weights[axis][band] += c[k] * (light.values[i] * matching[axis][i]);
      }
    }
  });
  return weights;
}

/** Summed in the order of `xyzFromReflectance`, so that the perfect diffuser is white to the last bit. */
function total(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum;
}

function checkReflectanceGrid(grid: Grid): void {
  GRID.check(grid, "grid");
  if (grid.step > COARSEST_REFLECTANCE_NM) {
    throw new InputError(
      "out-of-range",
      "grid.step",
      `${grid.step} nm is too coarse for colour: at most 20 nm`,
    );
  }
}

function ownLight(illuminant: Spectrum): Spectrum {
  const light = LAMP.check(illuminant, "illuminant");
  if (light.grid.step > COARSEST_ILLUMINANT_NM) {
    const reason = `${light.grid.step} nm is too coarse for a lamp: at most ${COARSEST_ILLUMINANT_NM} nm`;
    throw new InputError("out-of-range", "illuminant.grid.step", reason);
  }
  if (!covers(light.grid, LEAST_ILLUMINANT)) {
    throw new InputError(
      "outside-grid",
      "illuminant.grid",
      "a lamp must be given from 380 to 780 nm at least",
    );
  }
  return light;
}
