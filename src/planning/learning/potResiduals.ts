import { createStrengthResponse, strengthResponse } from "../../prediction/strengthResponse.js";
import { beliefRoot, strengthsAt } from "./beliefRoot.js";
import type { Belief, CardModel, PotModel } from "./potModel.js";

/** (R − R_card)/σ_R of all cards of a pot, one after the other, as a function of standard normal unknowns. */
export interface PotResiduals {
  readonly residualCount: number;
  readonly unknownCount: number;
  evaluate(u: Float64Array, residual: Float64Array, jacobian?: Float64Array): void;
}

const unknownsOf = ({ shapes, offsets, pourSd, misPour }: CardModel): number =>
  shapes.length + offsets.length + pourSd.filter((sd) => sd > 0).length + (misPour ? 1 : 0);

/** Errors of the scale leave at least this share of the grams that it showed. */
const LEAST_LEFT = 0.1;

/** White's share of a middling tint: there its strength is as characterised. */
const TINT_SHARE = 0.7;

/**
 * R by `strengthResponse`. The unknowns in their order: ln strengths (through the root of their covariance), what the
 * cards of the pot have in common, then card by card what is its own, the multiplier of its mis-pour last.
 */
export function createPotResiduals(pot: PotModel, belief: Belief, cards: readonly CardModel[]): PotResiduals {
  const { coefficients, surfaces, readingSd, tonerShapes, crowding } = pot;
  const { toners, size } = coefficients;
  const root = beliefRoot(belief);
  const straysAt = toners + pot.shapes.length;
  const surfaceAt = straysAt + pot.strays.length;
  const tonerShapesAt = surfaceAt + 3 * surfaces.length;
  const crowdingAt = tonerShapesAt + tonerShapes.length;
  const common = crowdingAt + 1;
  const [k1Sd, k2Sd, riseSd] = pot.surfaceSds;
  const bands = size / surfaces.length;
  const count = cards.reduce((sum, card) => sum + unknownsOf(card), common);
  const crowded = cards.map(({ grams }) => {
    const white = crowding.whites.reduce((sum, j) => sum + grams[j], 0);
    return crowding.sd * (white / grams.reduce((sum, amount) => sum + amount, 0) - TINT_SHARE);
  });
  const logStrength = new Float64Array(toners);
  const k = new Float64Array(toners * size);
  const s = new Float64Array(toners * size);
  const grams = new Float64Array(toners);
  const amounts = new Float64Array(toners);
  const logRatio = new Float64Array(size);
  const absorption = new Float64Array(size);
  const response = createStrengthResponse(coefficients);

  const evaluate = (u: Float64Array, residual: Float64Array, jacobian?: Float64Array): void => {
    jacobian?.fill(0);
    strengthsAt(belief, root, u, logStrength);
    k.set(coefficients.k);
    s.set(coefficients.s);
    tonerShapes.forEach(({ toner, of, shape }, m) => {
      const values = of === "k" ? k : s;
      for (let b = 0; b < size; b++) values[toner * size + b] *= Math.exp(u[tonerShapesAt + m] * shape[b]);
    });
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
      for (const j of crowding.whites) amounts[j] *= Math.exp(crowded[c] * u[crowdingAt]);
      const model = { coefficients: { ...coefficients, k, s }, surfaces };
      strengthResponse(model, amounts, { logRatio, absorption, surface }, response);
      const predicted = response.reflectance;
      addPatterns(predicted, card.offsets, u, offsetsAt);
      for (let b = 0; b < size; b++) {
        residual[c * size + b] = (predicted[b] - card.reflectance[b]) / readingSd;
      }
      if (!jacobian) return;
      for (let b = 0; b < size; b++) {
        const row = (c * size + b) * count;
        const slope = response.byLogRatio[b] / readingSd;
        const byAbsorption = response.byAbsorption[b] / readingSd;
        for (let j = 0; j < toners; j++) {
          const byStrength = response.byLogStrength[j * size + b] / readingSd;
          if (byStrength === 0) continue;
          for (let i = 0; i <= j; i++) jacobian[row + i] += byStrength * root[j * toners + i];
        }
        let at = row + toners;
        for (const shape of pot.shapes) jacobian[at++] = slope * shape[b];
        for (const stray of pot.strays) jacobian[at++] = byAbsorption * stray[b];
        at += 3 * Math.floor(b / bands);
        jacobian[at++] = k1Sd / readingSd;
        jacobian[at++] = (k2Sd * response.byK2[b]) / readingSd;
        jacobian[at++] = (riseSd * response.byK2[b] * (response.internal[b] - 0.5)) / readingSd;
        const byK = byAbsorption * Math.exp(logRatio[b]);
        at = row + tonerShapesAt;
        for (const { toner, of, shape } of tonerShapes) {
          const i = toner * size + b;
          const byLogK = byK * amounts[toner] * k[i];
          const byLog = of === "k" ? byLogK : response.byLogStrength[i] / readingSd - byLogK;
          jacobian[at++] = byLog * shape[b];
        }
        for (const j of crowding.whites) {
          jacobian[at] += (response.byLogStrength[j * size + b] * crowded[c]) / readingSd;
        }
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
  return { residualCount: cards.length * size, unknownCount: count, evaluate };
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
