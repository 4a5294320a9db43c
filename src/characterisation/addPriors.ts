import type { BlockArrow } from "../numeric/linear/blockArrow.js";
import type { Observations } from "./observations.js";
import type { Point, Unknowns } from "./unknowns.js";

/** Weight of a row that fixes a scale which the data leave free: stiff, and without effect on anything else. */
const GAUGE_WEIGHT = 1e3;

/**
 * Sd of ln K and ln S about one optical unit per film: so vague that it decides only what nothing was measured of.
 * Paints differ less in S than in K.
 */
export const VAGUE_SD = Object.freeze({ k: 5, s: 2 });

/** Weights on the steps of ln K and of ln S from one band to the next. */
export function walkWeights({ grid, options }: Observations): { readonly k: number; readonly s: number } {
  const root = Math.sqrt(grid.step / 10);
  return { k: options.smoothness.k / root, s: options.smoothness.s / root };
}

/**
 * Adds what is assumed, not measured: normal priors on thickness, shares and surface, the random walk of ln K and
 * ln S along the bands, and the gauge (mean ln thickness, or ln S of the reference toner, is 0). Returns its ½Σr².
 */
export function addPriors(
  observations: Observations,
  unknowns: Unknowns,
  { local, border: at }: Point,
  arrow: BlockArrow,
  gradient: Float64Array,
): number {
  const { cells, size, priorMean, priorWeight } = unknowns;
  const { border, corner, diagonal, link } = arrow;
  const { tonerCount } = observations;
  const rows = cells * size;
  let cost = 0;
  for (let p = 0; p < border; p++) {
    const square = priorWeight[p] ** 2;
    const off = at[p] - priorMean[p];
    cost += (square * off * off) / 2;
    gradient[rows + p] += square * off;
    corner[p * border + p] += square;
  }

  for (let place = 0; place < rows; place++) {
    const square = (place % size < tonerCount ? VAGUE_SD.k : VAGUE_SD.s) ** -2;
    const off = local[place] - unknowns.level;
    cost += (square * off * off) / 2;
    gradient[place] += square * off;
    diagonal[place * size + (place % size)] += square;
  }

  const walk = walkWeights(observations);
  const bands = observations.grid.count;
  for (let cell = 1; cell < cells; cell++) {
    if (cell % bands === 0) continue;
    for (let i = 0; i < size; i++) {
      const place = cell * size + i;
      const square = (i < tonerCount ? walk.k : walk.s) ** 2;
      const step = local[place] - local[place - size];
      cost += (square * step * step) / 2;
      gradient[place] += square * step;
      gradient[place - size] -= square * step;
      diagonal[place * size + i] += square;
      diagonal[(place - size) * size + i] += square;
      link[place] -= square;
    }
  }

  const gauge = GAUGE_WEIGHT ** 2;
  if (unknowns.gauge === "reference toner") {
    const i = tonerCount + observations.reference;
    for (let cell = 0; cell < cells; cell++) {
      const place = cell * size + i;
      cost += (gauge * local[place] ** 2) / 2;
      gradient[place] += gauge * local[place];
      diagonal[place * size + i] += gauge;
    }
  }
  if (unknowns.gauge === "mean film") {
    const places = Array.from(unknowns.thickness).filter((place) => place >= 0);
    const mean = places.reduce((sum, place) => sum + at[place], 0) / places.length;
    const share = gauge / places.length ** 2;
    cost += (gauge * mean * mean) / 2;
    for (const p of places) {
      gradient[rows + p] += (gauge * mean) / places.length;
      for (const q of places) if (q <= p) corner[p * border + q] += share;
    }
  }
  return cost;
}
