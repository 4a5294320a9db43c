import { type ArrowVariances, arrowVariances } from "../numeric/linear/arrowVariances.js";
import { type ArrowFactor, type BlockArrow, factoriseArrow } from "../numeric/linear/blockArrow.js";
import { VAGUE_SD, walkWeights } from "./addPriors.js";
import { linearise, misfitAt } from "./linearise.js";
import { FINEST_SD, type Observations } from "./observations.js";
import type { Point, Unknowns } from "./unknowns.js";

/** What the readings leave uncertain at the answer: the normal law of its linearisation. */
export interface Posterior {
  readonly factor: ArrowFactor;
  readonly variances: ArrowVariances;
  /** Unknowns that the readings decide, not the priors: trace of (JᵀJ + P)⁻¹JᵀJ. */
  readonly decided: number;
  /** √(Σr² / (readings − decided)); NaN below 20 readings to spare. */
  readonly noiseScale: number;
}

const LEAST_TO_SPARE = 20;

/**
 * Covariance (JᵀJ + P)⁻¹, JᵀJ of the readings in units of σ_R and P of the priors (Gelman et al. 2013 §4.1). With
 * `surface` "as fitted", the constants of the surfaces are held: K and S are then those that go with that surface.
 */
export function posteriorAt(
  observations: Observations,
  unknowns: Unknowns,
  point: Point,
  surface: "free" | "as fitted" = "free",
): Posterior {
  const { arrow } = linearise(observations, unknowns, point);
  const { blocks, size, border } = arrow;
  const shift = new Float64Array(blocks * size + border);
  if (surface === "as fitted") for (const { place } of unknowns.surface) shift[blocks * size + place] = 1e12;
  const factor = factoriseSafely(arrow, shift);
  const variances = arrowVariances(factor);
  const decided = blocks * size + border - decidedByPriors(observations, unknowns, variances);
  const readings = observations.readings.length * observations.grid.count;
  const toSpare = readings - decided;
  const misfit = 2 * misfitAt(observations, unknowns, point);
  return {
    factor,
    variances,
    decided,
    noiseScale: toSpare >= LEAST_TO_SPARE ? Math.sqrt(misfit / toSpare) : Number.NaN,
  };
}

/**
 * JᵀJ + P is positive definite since P is, but where readings are very exact and tell nothing of some unknown, P is
 * lost in their rounding. A share of the diagonal stands for it then, the smallest power of ten that is enough.
 */
function factoriseSafely(arrow: BlockArrow, shift: Float64Array): ArrowFactor {
  const { blocks, size, border, diagonal, corner } = arrow;
  const rows = blocks * size;
  const own = shift.map((_, i) =>
    i < rows ? diagonal[i * size + (i % size)] : corner[(i - rows) * border + (i - rows)],
  );
  for (let share = 0; ; share = Math.max(1e-15, 10 * share)) {
    const factor = factoriseArrow(
      arrow,
      shift.map((value, i) => value + share * own[i]),
    );
    if (factor) return factor;
    if (share > 1) throw new RangeError("the readings cannot be weighed: numbers beyond all measure");
  }
}

/** Trace of P·(JᵀJ + P)⁻¹. */
function decidedByPriors(
  observations: Observations,
  unknowns: Unknowns,
  { variance, chained }: ArrowVariances,
): number {
  const { cells, size, priorWeight, gauge } = unknowns;
  const { tonerCount, grid } = observations;
  const walk = walkWeights(observations);
  const rows = cells * size;
  let sum = gauge === "reference toner" ? cells : gauge === "mean film" ? 1 : 0;
  for (let p = 0; p < priorWeight.length; p++) sum += priorWeight[p] ** 2 * variance[rows + p];
  for (let i = 0; i < rows; i++) {
    const isK = i % size < tonerCount;
    sum += variance[i] / (isK ? VAGUE_SD.k : VAGUE_SD.s) ** 2;
    if (Math.floor(i / size) % grid.count === 0) continue;
    sum += (isK ? walk.k : walk.s) ** 2 * (variance[i] + variance[i - size] - 2 * chained[i]);
  }
  return sum;
}

/** The same readings with other standard deviations of reflectance. */
export function withNoiseScale(observations: Observations, scale: number): Observations {
  return {
    ...observations,
    readings: observations.readings.map((reading) => ({
      ...reading,
      weight: reading.weight.map((weight) => Math.min(1 / FINEST_SD, weight / scale)),
    })),
  };
}
