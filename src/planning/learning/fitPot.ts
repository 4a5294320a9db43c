import { fitWithUnitPrior, leadingCovariance, type UnitPriorFit } from "../../numeric/fitWithUnitPrior.js";
import { choleskyInPlace } from "../../numeric/triangularSolve.js";
import { createStrengthResponse, strengthResponse } from "../../prediction/strengthResponse.js";
import type { SurfaceTerms } from "../../surface/saunderson.js";
import type { Coefficients } from "../../toners/coefficients.js";

/** What is believed of the cans: ln of strength over what the toner set says, in the order of its toners. */
export interface Belief {
  readonly mean: Float64Array;
  /** Row-major. */
  readonly covariance: Float64Array;
}

/** One card with what may be peculiar to it; every pattern is multiplied by a standard normal number of its own. */
export interface CardModel {
  readonly grams: Float64Array;
  readonly reflectance: Float64Array;
  /** Patterns in ln(K/S) and in reflectance. */
  readonly shapes: readonly Float64Array[];
  readonly offsets: readonly Float64Array[];
  /** Sd in grams of what was poured of each toner since the card before; 0 where nothing was. */
  readonly pourSd: Float64Array;
  /** `grams` of a toner, of which `poured` may in truth have been poured·e^(sd·u). */
  readonly misPour?: { readonly toner: number; readonly poured: number; readonly sd: number };
}

/** What all cards of a pot have in common. */
export interface PotModel {
  readonly coefficients: Coefficients;
  readonly surfaces: readonly SurfaceTerms[];
  /** Noise of the readings, band by band alike. */
  readonly readingSd: number;
  /** Patterns in ln(K/S), and in absorption that is no toner's. */
  readonly shapes: readonly Float64Array[];
  readonly strays: readonly Float64Array[];
  /** Doubt in the surface, for each geometry: of k1, of k2 and of its rise from R∞ = 0 to 1. */
  readonly surfaceSds: readonly [k1: number, k2: number, rise: number];
}

/** The most probable strengths given the cards, and how probable the cards were. */
export interface PotFit extends Belief {
  /** χ² of all cards together; of what a card adds, the difference of two fits. */
  readonly chiSquare: number;
  /** ln of the probability density of the cards but for a constant per band. */
  readonly logEvidence: number;
  /** The multiplier of the last card's mis-pour, where it has one. */
  readonly misPour: number;
  /** Every unknown; where a fit of the same cards may start. */
  readonly unknowns: Float64Array;
  /** (R − R_card)/σ_R, card after card. */
  readonly residual: Float64Array;
}

const unknownsOf = ({ shapes, offsets, pourSd, misPour }: CardModel): number =>
  shapes.length + offsets.length + pourSd.filter((sd) => sd > 0).length + (misPour ? 1 : 0);

/** Errors of the scale leave at least this share of the grams that it showed. */
const LEAST_LEFT = 0.1;

/**
 * Strengths from all cards of one pot at once. Residuals (R_card − R)/σ_R with R by `strengthResponse`; unknowns are
 * ln strengths, the pot's patterns and each card's. To first order this is the Kalman update on ln q with noise
 * Σ dᵢdᵢᵀ + diag(σ_R·∂ln q/∂R)²; in R no dark band needs a logarithm of its noise. Source: Kalman 1960.
 */
export function fitPot(
  pot: PotModel,
  belief: Belief,
  cards: readonly CardModel[],
  {
    start = [],
    giveUpAbove = Number.POSITIVE_INFINITY,
  }: { readonly start?: ArrayLike<number>; readonly giveUpAbove?: number } = {},
): PotFit {
  const { coefficients, surfaces, readingSd } = pot;
  const { toners, size } = coefficients;
  const root = squareRoot(belief.covariance, toners);
  const straysAt = toners + pot.shapes.length;
  const surfaceAt = straysAt + pot.strays.length;
  const common = surfaceAt + 3 * surfaces.length;
  const [k1Sd, k2Sd, riseSd] = pot.surfaceSds;
  const bands = size / surfaces.length;
  const count = cards.reduce((sum, card) => sum + unknownsOf(card), common);
  const logStrength = new Float64Array(toners);
  const grams = new Float64Array(toners);
  const amounts = new Float64Array(toners);
  const logRatio = new Float64Array(size);
  const absorption = new Float64Array(size);
  const response = createStrengthResponse(coefficients);

  const evaluate = (u: Float64Array, residual: Float64Array, jacobian?: Float64Array): void => {
    jacobian?.fill(0);
    multiply(root, u, belief.mean, logStrength);
    absorption.fill(0);
    addPatterns(absorption, pot.strays, u, straysAt);
    const surface = surfaces.map((_, g) => ({
      offset: k1Sd * u[surfaceAt + 3 * g],
      k2: k2Sd * u[surfaceAt + 3 * g + 1],
      rise: riseSd * u[surfaceAt + 3 * g + 2],
    }));
    let own = common;
    const pours: { readonly toner: number; readonly sd: number; readonly at: number }[] = [];
    cards.forEach((card, c) => {
      const shapesAt = own;
      const offsetsAt = shapesAt + card.shapes.length;
      own = offsetsAt + card.offsets.length;
      card.pourSd.forEach((sd, toner) => {
        if (sd > 0) pours.push({ toner, sd, at: own++ });
      });
      const misPourAt = own;
      own += card.misPour ? 1 : 0;
      logRatio.fill(0);
      addPatterns(logRatio, pot.shapes, u, toners);
      addPatterns(logRatio, card.shapes, u, shapesAt);
      const extra = card.misPour ? card.misPour.poured * Math.expm1(card.misPour.sd * u[misPourAt]) : 0;
      grams.set(card.grams);
      for (const { toner, sd, at } of pours) {
        grams[toner] = Math.max(LEAST_LEFT * card.grams[toner], grams[toner] + sd * u[at]);
      }
      if (card.misPour) grams[card.misPour.toner] += extra;
      for (let j = 0; j < toners; j++) amounts[j] = grams[j] * Math.exp(logStrength[j]);
      strengthResponse({ coefficients, surfaces }, amounts, { logRatio, absorption, surface }, response);
      const predicted = response.reflectance;
      addPatterns(predicted, card.offsets, u, offsetsAt);
      for (let b = 0; b < size; b++) {
        residual[c * size + b] = (predicted[b] - card.reflectance[b]) / readingSd;
      }
      if (!jacobian) return;
      for (let b = 0; b < size; b++) {
        const row = (c * size + b) * count;
        const slope = response.byLogRatio[b] / readingSd;
        for (let j = 0; j < toners; j++) {
          const byStrength = response.byLogStrength[j * size + b] / readingSd;
          if (byStrength === 0) continue;
          for (let i = 0; i <= j; i++) jacobian[row + i] += byStrength * root[j * toners + i];
        }
        let at = row + toners;
        for (const shape of pot.shapes) jacobian[at++] = slope * shape[b];
        for (const stray of pot.strays) jacobian[at++] = (response.byAbsorption[b] * stray[b]) / readingSd;
        at += 3 * Math.floor(b / bands);
        jacobian[at++] = k1Sd / readingSd;
        jacobian[at++] = (k2Sd * response.byK2[b]) / readingSd;
        jacobian[at++] = (riseSd * response.byK2[b] * (response.internal[b] - 0.5)) / readingSd;
        at = row + shapesAt;
        for (const shape of card.shapes) jacobian[at++] = slope * shape[b];
        for (const offset of card.offsets) jacobian[at++] = offset[b] / readingSd;
        const byGram = (j: number) =>
          grams[j] > 0 ? response.byLogStrength[j * size + b] / grams[j] / readingSd : 0;
        for (const { toner, sd, at: column } of pours) jacobian[row + column] = sd * byGram(toner);
        if (card.misPour) {
          const { toner, poured, sd } = card.misPour;
          jacobian[row + misPourAt] = byGram(toner) * poured * sd * Math.exp(sd * u[misPourAt]);
        }
      }
    });
  };

  const fit = fitWithUnitPrior({
    residualCount: cards.length * size,
    giveUpAbove,
    start: Float64Array.from({ length: count }, (_, i) => start[i] ?? 0),
    evaluate,
  });
  const residual = new Float64Array(cards.length * size);
  evaluate(fit.u, residual);
  return {
    ...posterior(fit, belief, root, toners),
    chiSquare: fit.cost,
    logEvidence: fit.logEvidence,
    misPour: fit.u[count - 1] ?? 0,
    unknowns: fit.u,
    residual,
  };
}

function posterior(fit: UnitPriorFit, { mean }: Belief, root: Float64Array, toners: number): Belief {
  const moved = new Float64Array(toners);
  multiply(root, fit.u, mean, moved);
  const inner = leadingCovariance(fit, toners);
  const covariance = new Float64Array(toners * toners);
  for (let i = 0; i < toners; i++) {
    for (let j = 0; j < toners; j++) {
      let sum = 0;
      for (let a = 0; a <= i; a++) {
        for (let b = 0; b <= j; b++)
          sum += root[i * toners + a] * inner[a * toners + b] * root[j * toners + b];
      }
      covariance[i * toners + j] = sum;
    }
  }
  return { mean: moved, covariance };
}

/** Smallest variance of ln strength: a can known to a millionth is known. */
const LEAST_VARIANCE = 1e-12;

/** Lower triangle with C = L·Lᵀ; a hair on the diagonal keeps cans that are known exactly regular. */
function squareRoot(covariance: Float64Array, size: number): Float64Array {
  const root = covariance.slice();
  for (let j = 0; j < size; j++) root[j * size + j] += LEAST_VARIANCE;
  choleskyInPlace(root, 0, size);
  for (let i = 0; i < size; i++) root.fill(0, i * size + i + 1, (i + 1) * size);
  return root;
}

function multiply(root: Float64Array, u: Float64Array, mean: Float64Array, out: Float64Array): void {
  const size = mean.length;
  for (let i = 0; i < size; i++) {
    let sum = mean[i];
    for (let j = 0; j <= i; j++) sum += root[i * size + j] * u[j];
    out[i] = sum;
  }
}

function addPatterns(
  to: Float64Array,
  patterns: readonly Float64Array[],
  u: Float64Array,
  from: number,
): void {
  patterns.forEach((pattern, p) => {
    const amount = u[from + p];
    if (amount === 0) return;
    for (let b = 0; b < to.length; b++) to[b] += amount * pattern[b];
  });
}
