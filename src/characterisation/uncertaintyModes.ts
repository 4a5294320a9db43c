import { labByXyz } from "../colorimetry/lab.js";
import type { TristimulusWeights } from "../colorimetry/weights.js";
import { xyzFromReflectance } from "../colorimetry/xyz.js";
import { type ArrowFactor, solveArrow } from "../numeric/linear/blockArrow.js";
import { dot } from "../numeric/linear/dot.js";
import type { Film, Observation, Observations } from "./observations.js";
import { createReadingModel, createRow } from "./readingModel.js";
import type { Point, Unknowns } from "./unknowns.js";

const MODES_DEFAULTS = Object.freeze({
  most: 24,
  /** Modes are added until no colour of the sampled mixes has a larger sd of L*, a* or b* left. */
  labSd: 0.02,
  /** Mixes looked at, evenly picked from the samples. */
  mixes: 40,
});

export interface UncertaintyModes {
  /** Changes of ln K and ln S (laid out as the blocks), one sd each, independent of one another. */
  readonly modes: readonly Float64Array[];
  /** Largest sd of L*, a* or b* of a sampled mix that they leave out. */
  readonly leftOut: number;
}

/**
 * A covariance C of low rank that keeps what matters to colour. With g the slopes of L*, a*, b* of the sampled mixes
 * as opaque films, the mode C·g/√(gᵀC·g) of the g with most variance left is taken out of C, again and again: a
 * pivoted Cholesky factorisation of G·C·Gᵀ. Modes add up to C where it meets the mixes, and never exceed it.
 * Source: Higham 2002 §10.3 for the factorisation.
 */
export function uncertaintyModes(
  observations: Observations,
  unknowns: Unknowns,
  point: Point,
  factor: ArrowFactor,
  weights: TristimulusWeights,
): UncertaintyModes {
  const { most, labSd, mixes } = MODES_DEFAULTS;
  const slopes = colourSlopes(observations, unknowns, point, weights, mixes);
  const columns = slopes.map((slope) => {
    const column = new Float64Array(unknowns.cells * unknowns.size + unknowns.border);
    column.set(slope);
    solveArrow(factor, column);
    return column.subarray(0, slope.length);
  });
  const left = slopes.map((slope, i) => dot(slope, columns[i]));
  const modes: Float64Array[] = [];
  for (;;) {
    const pivot = left.indexOf(Math.max(...left));
    const variance = left[pivot];
    if (modes.length >= most || !(variance > labSd * labSd)) {
      return { modes, leftOut: Math.sqrt(Math.max(0, variance)) };
    }
    const mode = columns[pivot].slice();
    for (const earlier of modes) {
      const share = dot(earlier, slopes[pivot]);
      for (let i = 0; i < mode.length; i++) mode[i] -= share * earlier[i];
    }
    const root = Math.sqrt(variance);
    for (let i = 0; i < mode.length; i++) mode[i] /= root;
    slopes.forEach((slope, i) => {
      left[i] -= dot(mode, slope) ** 2;
    });
    left[pivot] = 0;
    modes.push(mode);
  }
}

/** Slopes of L*, a*, b* of the films as if they hid their backing, with respect to ln K and ln S. */
function colourSlopes(
  observations: Observations,
  unknowns: Unknowns,
  point: Point,
  weights: TristimulusWeights,
  mixes: number,
): readonly Float64Array[] {
  const { grid, films, surfaces } = observations;
  const model = createReadingModel(
    observations,
    { ...unknowns, shares: new Int32Array(films.length).fill(-1) },
    point,
  );
  const row = createRow(unknowns);
  return surfaces.flatMap((_, geometry) =>
    spread(distinctMixes(films), mixes).flatMap((film) => {
      const none = new Float64Array(grid.count);
      const opaque: Observation = { film, geometry, measured: none, weight: none };
      const reflectance = none.map((_, band) => {
        model(opaque, band, row);
        return row.reflectance;
      });
      const byXyz = labByXyz(xyzFromReflectance(reflectance, weights), weights.white);
      return byXyz.map(([x, y, z]) => {
        const slope = new Float64Array(unknowns.cells * unknowns.size);
        for (let band = 0; band < grid.count; band++) {
          model(opaque, band, row);
          const start = (geometry * grid.count + band) * unknowns.size;
          const byBand = x * weights.x[band] + y * weights.y[band] + z * weights.z[band];
          for (let i = 0; i < row.count; i++) slope[start + row.places[i]] = byBand * row.slopes[i];
        }
        return slope;
      });
    }),
  );
}

function distinctMixes(films: readonly Film[]): readonly number[] {
  const seen = new Set<string>();
  return Array.from(films.keys()).filter((f) => {
    const key = `${films[f].toners.join()}|${films[f].shares.join()}`;
    return !seen.has(key) && seen.add(key);
  });
}

function spread(list: readonly number[], most: number): readonly number[] {
  if (list.length <= most) return list;
  return Array.from({ length: most }, (_, i) => list[Math.floor((i * list.length) / most)]);
}
