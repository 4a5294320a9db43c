import { type Lab, labByXyz, labFromXyz } from "../colorimetry/lab.js";
import type { TristimulusWeights } from "../colorimetry/weights.js";
import { xyzFromReflectance } from "../colorimetry/xyz.js";
import type { ForwardModel } from "../forward/forwardModel.js";
import type { Film } from "./film.js";
import type { FilmResponse } from "./filmResponse.js";
import { isOfToner, type Unknown } from "./unknown.js";

/** Lab of a reflectance under one light, and ∂Lab/∂R: axis by band at `[axis·bands + b]`. */
export function colourSlopes(
  reflectance: Float64Array,
  { x, y, z, white }: TristimulusWeights,
): { readonly lab: Lab; readonly by: Float64Array } {
  const xyz = xyzFromReflectance(reflectance, { x, y, z });
  const bands = reflectance.length;
  const by = new Float64Array(3 * bands);
  labByXyz(xyz, white).forEach(([byX, byY, byZ], axis) => {
    const at = axis * bands;
    for (let b = 0; b < bands; b++) by[at + b] = byX * x[b] + byY * y[b] + byZ * z[b];
  });
  return { lab: labFromXyz(xyz, white), by };
}

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
      const colour = colourSlopes(own, tristimulus);
      lab.set(colour.lab, place);
      for (let axis = 0; axis < 3; axis++) {
        const values = colour.by.subarray(axis * bands, (axis + 1) * bands);
        byReflectance.set(values, (place + axis) * size + g * bands);
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
  { slopes, first, reflectance: { length: size } }: FilmResponse,
  { unknowns, film }: { readonly unknowns: readonly Unknown[]; readonly film: Film },
  into: Float64Array,
  factor = 1,
): void {
  const count = rows.length / size;
  const bent = new Float64Array(size);
  const spans = spansOfThree(rows, size);
  for (let x = 0; x < unknowns.length; x++) {
    for (const { field, toner, from, shape, share } of unknowns[x].effects) {
      const start = isOfToner(field) ? first[toner] : 0;
      if (start < 0) continue;
      const amount = factor * share(film);
      if (amount === 0) continue;
      const values = slopes[field];
      const end = from + shape.length;
      for (let b = from; b < end; b++) bent[b] = amount * shape[b - from] * values[start + b];
      // Three rows at a time, those of one colour: independent sums run faster.
      for (let i = 0; i < count; i += 3) {
        const low = Math.max(from, spans[i]);
        const high = Math.min(end, spans[i + 1]);
        if (low >= high) continue;
        const row = i * size;
        let one = 0;
        let two = 0;
        let three = 0;
        for (let b = low; b < high; b++) {
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

/** Of the three rows from row i on the bands outside which all of them are 0, at i and i + 1. */
function spansOfThree(rows: Float64Array, size: number): Int32Array {
  const count = rows.length / size;
  const spans = new Int32Array(count);
  for (let i = 0; i < count; i += 3) {
    const isZero = (b: number) => {
      const at = i * size + b;
      return rows[at] === 0 && rows[at + size] === 0 && rows[at + 2 * size] === 0;
    };
    let low = 0;
    let high = size;
    while (low < high && isZero(low)) low++;
    while (high > low && isZero(high - 1)) high--;
    spans[i] = low;
    spans[i + 1] = high;
  }
  return spans;
}
