import type { SeenColour } from "../belief/prior.js";
import { type Lab, labFromXyz } from "../colorimetry/lab.js";
import { type TristimulusWeights, tristimulusWeights } from "../colorimetry/weights.js";
import type { ForwardModel } from "../forward/forwardModel.js";
import type { CheckedColourReading } from "../scene/readings/colourReading.js";

/** Tristimulus weights of a light and an observer. */
export type WeightsOf = (
  seenUnder: Pick<CheckedColourReading, "illuminant" | "observer">,
) => TristimulusWeights;

/** Tristimulus weights by light and observer, each made once. */
export function createWeights(model: ForwardModel): WeightsOf {
  const known = new Map<string, TristimulusWeights>();
  return ({ illuminant, observer }) => {
    const name = `${illuminant}, ${observer}`;
    const found = known.get(name) ?? tristimulusWeights({ grid: model.set.grid, illuminant, observer });
    known.set(name, found);
    return found;
  };
}

/** Colours as the belief takes them; those at geometries that the model has not are left out. */
export function seenColours(
  model: ForwardModel,
  weightsOf: WeightsOf,
  colours: readonly CheckedColourReading[],
): readonly SeenColour[] {
  return colours.flatMap((colour): readonly SeenColour[] => {
    const geometry = model.geometries.indexOf(colour.geometry);
    if (geometry < 0) return [];
    const tristimulus = weightsOf(colour);
    const lab: Lab = colour.lab ?? labFromXyz(colour.xyz as Lab, tristimulus.white);
    return [{ geometry, tristimulus, lab, sd: colour.sd / Math.sqrt(colour.replicates) }];
  });
}
