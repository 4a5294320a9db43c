import { differenceParts } from "../colorimetry/differenceParts.js";
import type { TristimulusWeights } from "../colorimetry/weights.js";
import { lowerFactor } from "../numeric/linear/lowerFactor.js";
import { addLeft } from "./addLeft.js";
import type { Belief } from "./belief.js";
import { addRowSlopes, colourSlopes } from "./colourSlopes.js";
import { filmResponse } from "./filmResponse.js";
import { partSlopes } from "./operators/comparisonObservation.js";
import { eyeSd } from "./operators/createGradeRoot.js";

/** A panel held beside a card under a light, by their places in the belief. */
export interface Look {
  readonly panel: number;
  readonly card: number;
  readonly geometry: number;
  readonly tristimulus: TristimulusWeights;
}

const LOOKED_AT = ["lighter", "redder", "yellower"] as const;

/**
 * How much each look would tell, in nats: ½ ln det(I + N⁻½·C·N⁻½), C the covariance of how the panel looks against the card
 * by what is believed now, N the noise of an eye. Source: Lindley 1956.
 */
export function tellingLooks(belief: Belief, looks: readonly Look[]): readonly number[] {
  const { scope, posterior, cards } = belief;
  const { model, strengths, unknowns, films } = scope;
  const bands = model.set.grid.count;
  const { size } = model.coefficients;
  const responses = films.map((film) => filmResponse(model, strengths, { unknowns, u: posterior.u }, film));
  return looks.map(({ panel, card, geometry, tristimulus }) => {
    const seen = [cards.length + panel, card].map((film) => {
      const own = responses[film].reflectance.subarray(geometry * bands, (geometry + 1) * bands);
      return { film, ...colourSlopes(own, tristimulus) };
    });
    const labs = seen.map(({ lab }) => lab);
    const parts = differenceParts(labs[1], labs[0]);
    const by = new Float64Array(unknowns.length * 3);
    seen.forEach(({ film, by: byBand }, f) => {
      const rows = new Float64Array(3 * size);
      for (let axis = 0; axis < 3; axis++) {
        const slopes = partSlopes(labs, f, axis);
        LOOKED_AT.forEach((component, i) => {
          const factor = slopes[component] / eyeSd(parts[component]);
          for (let b = 0; b < bands; b++) {
            rows[i * size + geometry * bands + b] += factor * byBand[axis * bands + b];
          }
        });
      }
      addRowSlopes(rows, responses[film], { unknowns, film: films[film] }, by);
    });
    const covariance = Float64Array.from({ length: 9 }, (_, i) => (i % 4 === 0 ? 1 : 0));
    addLeft(posterior, by, covariance);
    const root = lowerFactor(covariance, 3);
    return Math.log(root[0]) + Math.log(root[4]) + Math.log(root[8]);
  });
}
