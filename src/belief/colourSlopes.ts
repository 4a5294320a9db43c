import { labByXyz, labFromXyz } from "../colorimetry/lab.js";
import { xyzFromReflectance } from "../colorimetry/xyz.js";
import type { ForwardModel } from "../prediction/forwardModel.js";
import type { Film } from "./film.js";
import { type FilmResponse, isOfToner } from "./filmResponse.js";
import type { Unknown } from "./unknown.js";

/** Colours of a reflectance, laid out like an evaluation's `lab`, and ∂Lab/∂R: colour i by band at `[i·size + b]`. */
export interface Colours {
  readonly lab: Float64Array;
  readonly byReflectance: Float64Array;
}

export function coloursOf({ geometries, lights, set }: ForwardModel, reflectance: Float64Array): Colours {
  const bands = set.grid.count;
  const size = reflectance.length;
  const count = 3 * geometries.length * lights.length;
  const lab = new Float64Array(count);
  const byReflectance = new Float64Array(count * size);
  let place = 0;
  for (let g = 0; g < geometries.length; g++) {
    const own = reflectance.subarray(g * bands, (g + 1) * bands);
    for (const { tristimulus } of lights) {
      const { x, y, z, white } = tristimulus;
      const xyz = xyzFromReflectance(own, tristimulus);
      lab.set(labFromXyz(xyz, white), place);
      const rows = labByXyz(xyz, white);
      for (let axis = 0; axis < 3; axis++) {
        const [byX, byY, byZ] = rows[axis];
        const at = (place + axis) * size + g * bands;
        for (let b = 0; b < bands; b++) byReflectance[at + b] = byX * x[b] + byY * y[b] + byZ * z[b];
      }
      place += 3;
    }
  }
  return { lab, byReflectance };
}

/**
 * ∂(rows·R)/∂u of a film, unknown by unknown, as many numbers each as there are rows over the bands (`[i·size + b]`; three a colour),
 * added to `into` times `factor`.
 */
export function addRowSlopes(
  rows: Float64Array,
  { slopes, reflectance: { length: size } }: FilmResponse,
  { unknowns, film }: { readonly unknowns: readonly Unknown[]; readonly film: Film },
  into: Float64Array,
  factor = 1,
): void {
  const count = rows.length / size;
  const bent = new Float64Array(size);
  for (let x = 0; x < unknowns.length; x++) {
    for (const { field, toner, from, shape, share } of unknowns[x].effects) {
      if (isOfToner(field) && film.grams[toner] === 0) continue;
      const amount = factor * share(film);
      if (amount === 0) continue;
      const values = slopes[field];
      const first = isOfToner(field) ? toner * size : 0;
      const end = from + shape.length;
      for (let b = from; b < end; b++) bent[b] = amount * shape[b - from] * values[first + b];
      // Three rows at a time, a colour's: sums that do not wait for each other.
      for (let i = 0; i < count; i += 3) {
        const row = i * size;
        let one = 0;
        let two = 0;
        let three = 0;
        for (let b = from; b < end; b++) {
          one += rows[row + b] * bent[b];
          two += rows[row + size + b] * bent[b];
          three += rows[row + 2 * size + b] * bent[b];
        }
        into[x * count + i] += one;
        into[x * count + i + 1] += two;
        into[x * count + i + 2] += three;
      }
    }
  }
}
