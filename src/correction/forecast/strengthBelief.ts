import { choleskySolve } from "../../numeric/denseAlgebra.js";
import { lowerFactor } from "../../numeric/lowerFactor.js";
import { reflectivitySlope } from "../../optics/infiniteFilm.js";
import { ANCHOR_DEFAULTS, usableInternal } from "../../prediction/anchor.js";
import { createGradient, differentiate } from "../../prediction/differentiate.js";
import { createEvaluation, evaluate } from "../../prediction/evaluate.js";
import type { ForwardModel } from "../../prediction/forwardModel.js";
import { measuredSlope } from "../../surface/saunderson.js";
import type { Doubts } from "./doubts.js";

/** What is believed of ln strength of the cans, against what the toner set says, in the order of the set. */
export interface StrengthBelief {
  readonly mean: Float64Array;
  /** Ways to be wrong by one standard deviation, independent of one another; their squares add up. */
  readonly modes: readonly Float64Array[];
}

/** A card is smooth where it is wrong, so its bands are fewer data than they look: as if each of so many counted once. */
const BANDS_PER_DATUM = 4;

/** Absorption that no toner explains, as K/S: next to nothing in a mid tone, all that there is in a white. */
const TRACE = 1e-3;

/** Where dR/dq grows without bound the trace would be all that counts; no paint is whiter. */
const WHITEST = 0.999;

/** Gauss–Newton steps; the card differs from the model by a few ΔE00, where two suffice. */
const ROUNDS = 4;

/**
 * ln strength of every can in use (`used`, indices into the set) given the card sprayed from `pot`: prior N(0, sd²),
 * card = R(pot·e^θ) + error, with the error of a card that no toner explains (`ANCHOR_DEFAULTS.reflectanceSd`).
 * Posterior by Gauss–Newton, covariance (HᵀH/σ² + diag 1/sd²)⁻¹. `bare` is not tied to the card. A toner that is not
 * in the pot keeps its prior; so does a strength common to all, which no opaque film shows.
 * Source: Gelman et al. 2013.
 */
export function strengthBelief(
  bare: ForwardModel,
  {
    pot,
    card,
    used,
  }: { readonly pot: Float64Array; readonly card: Float64Array; readonly used: readonly number[] },
  doubts: Doubts,
): StrengthBelief {
  const { toners } = bare.set;
  const sdOf = (j: number) => doubts.strength * (toners[j].strengthSd ?? doubts.strengthSd);
  const open = used.filter((j) => sdOf(j) > 0);
  const mean = new Float64Array(pot.length);
  if (open.length === 0) return { mean, modes: [] };

  const size = open.length;
  const at = createEvaluation(bare);
  const slopes = createGradient(bare);
  const precision = precisions(bare, card);
  let covariance: Float64Array = new Float64Array(size * size);
  for (let round = 0; round < ROUNDS; round++) {
    const grams = pot.map((amount, j) => amount * Math.exp(mean[j]));
    evaluate(bare, grams, at);
    differentiate(bare, at, slopes, open);
    const rows = open.map((j) =>
      slopes.reflectance.subarray(j * card.length, (j + 1) * card.length).map((slope) => slope * grams[j]),
    );
    const weighted = rows.map((row) => row.map((slope, b) => slope * precision[b]));
    const missing = card.map((measured, b) => {
      let sum = measured - at.reflectance[b];
      open.forEach((j, i) => {
        sum += rows[i][b] * mean[j];
      });
      return sum;
    });
    const information = new Float64Array(size * size);
    const right = new Float64Array(size);
    for (let i = 0; i < size; i++) {
      for (let k = 0; k < size; k++) information[i * size + k] = dot(weighted[i], rows[k]);
      information[i * size + i] += 1 / sdOf(open[i]) ** 2;
      right[i] = dot(weighted[i], missing);
    }
    covariance = choleskySolve(information, identity(size), size, size);
    open.forEach((j, i) => {
      mean[j] = dot(covariance.subarray(i * size, (i + 1) * size), right);
    });
  }
  const factor = lowerFactor(covariance, size);
  const modes = open.map((_, column) => {
    const mode = new Float64Array(pot.length);
    open.forEach((j, i) => {
      mode[j] = factor[i * size + column];
    });
    return mode;
  });
  return { mean, modes };
}

/** 1/σ² of each band of the card as a datum on strengths. */
function precisions({ surfaces, set }: ForwardModel, card: Float64Array): Float64Array {
  return card.map((measured, b) => {
    const surface = surfaces[Math.floor(b / set.grid.count)];
    const internal = Math.min(WHITEST, usableInternal(measured, surface));
    const byTrace = TRACE * reflectivitySlope(internal) * measuredSlope(internal, surface);
    return 1 / (BANDS_PER_DATUM * (ANCHOR_DEFAULTS.reflectanceSd ** 2 + byTrace ** 2));
  });
}

function identity(size: number): Float64Array {
  const matrix = new Float64Array(size * size);
  for (let i = 0; i < size; i++) matrix[i * size + i] = 1;
  return matrix;
}

function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
