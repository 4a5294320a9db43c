import type { Random } from "../../numeric/random.js";
import { createEvaluation, evaluate } from "../../prediction/evaluate.js";
import type { ForwardModel } from "../../prediction/forwardModel.js";
import { measuredSlope } from "../../surface/saunderson.js";
import { SMOOTH_TERMS } from "../fade/fadeUnknowns.js";
import { laplacePosterior } from "../fade/laplacePosterior.js";
import { correlatedNormal } from "./correlatedNormal.js";
import type { PlanOptions } from "./planOptions.js";
import { strengthSds } from "./strengthSds.js";

/** What a card sprayed from a pot will tell of the cans, before it is sprayed. */
export interface CardInformation {
  /** Standard deviation of ln strength by toner of the set, after the card. */
  readonly sd: Float64Array;
  /** A draw of (true − estimated) ln strength after the card, by toner of the set. */
  error(random: Random): Float64Array;
}

/**
 * Covariance (HᵀH + P⁻¹)⁻¹ of ln strengths after one card: ∂ ln(K/S)/∂ ln strength = g(K/ΣgK − S/ΣgS) over the sd of
 * the reading, with a smooth curve that the model misses as further unknowns and the cans' own sd as prior P. An empty pot tells
 * nothing.
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
    return { sd: known, error: (random) => known.map((sd) => sd * random.normal()) };
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
  const spread = (of: (j: number, n: number) => number) => {
    const values = new Float64Array(known.length);
    unknown.forEach((j, n) => {
      values[j] = known[j] * of(j, n);
    });
    return values;
  };
  return {
    sd: spread((_, n) => Math.sqrt(covariance[n * width + n])),
    error(random) {
      const drawn = correlatedNormal(lower, width, random);
      return spread((_, n) => drawn[n]);
    },
  };
}
