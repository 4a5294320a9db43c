import { sdsInPot } from "../../belief/sdsInPot.js";
import { createEvaluation, evaluate } from "../../forward/evaluate.js";
import type { ForwardModel } from "../../forward/forwardModel.js";
import type { Random } from "../../numeric/probability/random.js";
import { measuredSlope } from "../../surface/saunderson.js";
import { scatteringShares } from "../../toners/scatteringShares.js";
import { SMOOTH_TERMS } from "../fade/fadeUnknowns.js";
import { laplacePosterior } from "../fade/laplacePosterior.js";
import { correlatedNormal } from "./correlatedNormal.js";
import type { PlanOptions } from "./planOptions.js";
import { strengthSds } from "./strengthSds.js";

/**
 * What a card sprayed from a pot will tell of the cans, before it is sprayed: ln strengths by toner of the set, each
 * against the pot as a whole (θⱼ − Σwθ, w the toners' shares of its scattering), since that is by what a pour works.
 */
export interface CardInformation {
  /** Standard deviation before and after the card. */
  readonly sdBefore: Float64Array;
  readonly sd: Float64Array;
  /** Draws the error true − estimated that remains after the card. */
  error(random: Random): Float64Array;
}

/**
 * Covariance (HᵀH + P⁻¹)⁻¹ of ln strengths after one card: ∂ ln(K/S)/∂ ln strength = g(K/ΣgK − S/ΣgS) over the sd of
 * the reading, with a smooth curve that the model misses as further unknowns and the cans' own sd as prior P. An empty
 * pot tells nothing.
 */
export function cardInformation(
  model: ForwardModel,
  pot: ArrayLike<number>,
  options: PlanOptions,
): CardInformation {
  const { size, k, s } = model.coefficients;
  const bands = model.set.grid.count;
  const known = strengthSds(model);
  const unknown = Array.from(known.keys()).filter((j) => known[j] > 0);
  const width = unknown.length + SMOOTH_TERMS;
  const at = createEvaluation(model);
  evaluate(model, pot, at);
  if (at.s.some((scattering) => !(scattering > 0))) {
    return { sdBefore: known, sd: known, error: (random) => known.map((sd) => sd * random.normal()) };
  }
  const rows = size + width;
  const jacobian = new Float64Array(rows * width);
  for (let b = 0; b < size; b++) {
    const surface = model.surfaces[Math.floor(b / bands)];
    const inside = Math.min(0.999, at.internal[b]);
    const slope = (1 + inside) / (inside * (1 - inside)) / measuredSlope(inside, surface);
    const sd = Math.hypot(slope * options.reflectanceSd, options.bandSd);
    unknown.forEach((j, n) => {
      const place = j * size + b;
      const byLog = pot[j] * (k[place] / Math.max(at.k[b], Number.MIN_VALUE) - s[place] / at.s[b]);
      jacobian[b * width + n] = (known[j] * byLog) / sd;
    });
    for (let term = 0; term < SMOOTH_TERMS; term++) {
      const curve = Math.cos((Math.PI * term * ((b % bands) + 0.5)) / bands);
      jacobian[b * width + unknown.length + term] = (options.smoothSd * curve) / sd;
    }
  }
  for (let n = 0; n < width; n++) jacobian[(size + n) * width + n] = 1;
  const { covariance, lower } = laplacePosterior(jacobian, width);
  const toners = known.length;
  const shares = scatteringShares(model.coefficients, pot);
  const sdsWith = (of: (n: number, m: number) => number) => {
    const all = new Float64Array(toners * toners);
    unknown.forEach((j, n) => {
      unknown.forEach((i, m) => {
        all[j * toners + i] = known[j] * known[i] * of(n, m);
      });
    });
    return sdsInPot({ logStrength: known, covariance: all }, shares).map((sd, j) => (known[j] > 0 ? sd : 0));
  };
  return {
    sdBefore: sdsWith((n, m) => (n === m ? 1 : 0)),
    sd: sdsWith((n, m) => covariance[n * width + m]),
    error(random) {
      const drawn = correlatedNormal(lower, width, random);
      const off = new Float64Array(toners);
      unknown.forEach((j, n) => {
        off[j] = known[j] * drawn[n];
      });
      const ofPot = off.reduce((sum, value, j) => sum + shares[j] * value, 0);
      return off.map((value, j) => (known[j] > 0 ? value - ofPot : 0));
    },
  };
}
