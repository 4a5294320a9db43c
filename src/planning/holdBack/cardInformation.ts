import { beliefOf } from "../../belief/belief.js";
import { canPosterior } from "../../belief/canPosterior.js";
import { filmResponse } from "../../belief/filmResponse.js";
import type { Prior } from "../../belief/prior.js";
import { sdsInPot } from "../../belief/sdsInPot.js";
import { lowerFactor } from "../../numeric/linear/lowerFactor.js";
import type { Random } from "../../numeric/probability/random.js";
import { scatteringShares } from "../../toners/scatteringShares.js";
import { correlatedNormal } from "./correlatedNormal.js";

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

/** What the belief would hold of the cans, had the pot's card read what it is expected to. An empty pot tells nothing. */
export function cardInformation(prior: Prior, pot: Float64Array): CardInformation {
  const { model, logStrength, covariance } = prior;
  const toners = pot.length;
  const strengths = logStrength.map(Math.exp);
  const film = { place: 0, grams: pot, kinship: new Float64Array(1) };
  const { reflectance } = filmResponse(model, strengths, { unknowns: [], u: [] }, film);
  const isEmpty = !reflectance.every(Number.isFinite);
  const after = isEmpty ? prior : canPosterior(beliefOf(prior, [{ grams: pot, reflectance }]));
  const shares = isEmpty
    ? new Float64Array(toners)
    : scatteringShares(
        model.coefficients,
        pot.map((grams, j) => grams * strengths[j]),
      );
  const root = lowerFactor(after.covariance, toners);
  const only = (values: Float64Array) =>
    values.map((value, j) => (covariance[j * toners + j] > 0 ? value : 0));
  return {
    sdBefore: only(sdsInPot(prior, shares)),
    sd: only(sdsInPot(after, shares)),
    error(random) {
      const off = correlatedNormal(root, toners, random);
      const ofPot = off.reduce((sum, value, j) => sum + shares[j] * value, 0);
      return only(off.map((value) => value - ofPot));
    },
  };
}
