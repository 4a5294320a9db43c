import { createBlockArrow } from "../numeric/linear/blockArrow.js";
import { conditionNumber, numericalRank, singularValues } from "../numeric/linear/denseAlgebra.js";
import { addRow } from "./linearise.js";
import type { Observations } from "./observations.js";
import { createReadingModel, createRow } from "./readingModel.js";
import type { Point, Unknowns } from "./unknowns.js";

export interface Rank {
  /** Directions of ln K, ln S that the readings tell, over all bands. */
  readonly rank: number;
  readonly unknowns: number;
  /** Largest over the bands of σ_max/σ_min, J with columns of unit length. */
  readonly condition: number;
}

/** Singular values of J below this share of its largest count as zero: an sd of ln 1e6 times the best one. */
const RANK_TOLERANCE = 1e-6;

/**
 * Rank and condition of the readings' own J in ln K and ln S, band by band, columns brought to unit length, without
 * any prior, thicknesses and the rest held where they were found. A singular value counts if σ > 1e−6·σ_max.
 */
export function rankAt(observations: Observations, unknowns: Unknowns, point: Point): Rank {
  const { cells, size } = unknowns;
  const arrow = createBlockArrow(cells, size, unknowns.border);
  const gradient = new Float64Array(cells * size + unknowns.border);
  const model = createReadingModel(observations, unknowns, point);
  const row = createRow(unknowns);
  for (const reading of observations.readings) {
    for (let band = 0; band < observations.grid.count; band++) {
      model(reading, band, row);
      row.borderCount = 0;
      const cell = reading.geometry * observations.grid.count + band;
      addRow(arrow, gradient, { row, cell, weight: reading.weight[band], residual: 0 });
    }
  }
  let rank = 0;
  let condition = 1;
  for (let cell = 0; cell < cells; cell++) {
    const block = arrow.diagonal.subarray(cell * size * size, (cell + 1) * size * size);
    const squares = singularValues(scaled(block, size), size, size);
    rank += numericalRank(squares, size, size, RANK_TOLERANCE ** 2 * squares[0]);
    condition = Math.max(condition, Math.sqrt(conditionNumber(squares)));
  }
  return { rank, unknowns: cells * size, condition };
}

/** The whole symmetric block from its lower triangle, with a diagonal of ones (or zeros). */
function scaled(block: Float64Array, size: number): Float64Array {
  const matrix = new Float64Array(size * size);
  const length = (i: number) => Math.sqrt(block[i * size + i]) || 1;
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      const value = block[i * size + j] / (length(i) * length(j));
      matrix[i * size + j] = value;
      matrix[j * size + i] = value;
    }
  }
  return matrix;
}
