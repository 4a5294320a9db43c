import { type BlockArrow, createBlockArrow } from "../numeric/linear/blockArrow.js";
import { addPriors } from "./addPriors.js";
import type { Observations } from "./observations.js";
import { createReadingModel, createRow, type Row } from "./readingModel.js";
import type { Point, Unknowns } from "./unknowns.js";

/** ½Σr² with its Gauss–Newton matrix JᵀJ and gradient Jᵀr (blocks first, then border). */
export interface Linearisation {
  readonly cost: number;
  readonly arrow: BlockArrow;
  readonly gradient: Float64Array;
}

/** Modelled reflectance of every reading at a point, in the order of the readings. */
export function modelReflectances(
  observations: Observations,
  unknowns: Unknowns,
  point: Point,
): readonly Float64Array[] {
  const model = createReadingModel(observations, unknowns, point);
  const row = createRow(unknowns);
  return observations.readings.map((reading) =>
    reading.measured.map((_, band) => {
      model(reading, band, row);
      return row.reflectance;
    }),
  );
}

/** ½Σ((R − R_measured)/σ_R)² alone, without what is only assumed. */
export function misfitAt(observations: Observations, unknowns: Unknowns, point: Point): number {
  let cost = 0;
  modelReflectances(observations, unknowns, point).forEach((reflectance, r) => {
    const { measured, weight } = observations.readings[r];
    for (let b = 0; b < reflectance.length; b++)
      cost += ((reflectance[b] - measured[b]) * weight[b]) ** 2 / 2;
  });
  return cost;
}

/** The measured residuals and the priors, made linear at a point. */
export function linearise(observations: Observations, unknowns: Unknowns, point: Point): Linearisation {
  const arrow = createBlockArrow(unknowns.cells, unknowns.size, unknowns.border);
  const gradient = new Float64Array(unknowns.cells * unknowns.size + unknowns.border);
  const model = createReadingModel(observations, unknowns, point);
  const row = createRow(unknowns);
  const bands = observations.grid.count;
  let cost = 0;
  for (const reading of observations.readings) {
    const { geometry, measured, weight } = reading;
    for (let band = 0; band < bands; band++) {
      model(reading, band, row);
      const residual = (row.reflectance - measured[band]) * weight[band];
      cost += (residual * residual) / 2;
      addRow(arrow, gradient, { row, cell: geometry * bands + band, weight: weight[band], residual });
    }
  }
  cost += addPriors(observations, unknowns, point, arrow, gradient);
  return { cost, arrow, gradient };
}

/** Adds one weighted row of J to JᵀJ and Jᵀr. The places of a row rise, so that lower triangles are met. */
export function addRow(
  { size, border, blocks, diagonal, edge, corner }: BlockArrow,
  gradient: Float64Array,
  at: { readonly row: Row; readonly cell: number; readonly weight: number; readonly residual: number },
): void {
  const { places, slopes, count, borderPlaces, borderSlopes, borderCount } = at.row;
  const block = at.cell * size * size;
  for (let i = 0; i < count; i++) {
    const slope = at.weight * slopes[i];
    const place = at.cell * size + places[i];
    gradient[place] += slope * at.residual;
    const line = block + places[i] * size;
    for (let j = 0; j <= i; j++) diagonal[line + places[j]] += slope * at.weight * slopes[j];
    for (let j = 0; j < borderCount; j++) {
      edge[place * border + borderPlaces[j]] += slope * at.weight * borderSlopes[j];
    }
  }
  for (let i = 0; i < borderCount; i++) {
    const slope = at.weight * borderSlopes[i];
    gradient[blocks * size + borderPlaces[i]] += slope * at.residual;
    for (let j = 0; j < borderCount; j++) {
      if (borderPlaces[j] > borderPlaces[i]) continue;
      corner[borderPlaces[i] * border + borderPlaces[j]] += slope * at.weight * borderSlopes[j];
    }
  }
}
