import type { TargetPrediction } from "../../correction/correction.js";
import { halfWidth } from "../../forecast/drawColours.js";
import type { ExpectedCard } from "./nextStep.js";

/** A number of a card outside this interval of its forecast is not believed. */
const BELIEVED = 0.999;

/** The colours of a card (`labBefore`) that its forecast did not hold possible, in words. */
export function surprises(
  { level, cards }: ExpectedCard,
  predictions: readonly TargetPrediction[],
): readonly string[] {
  const wider = halfWidth(BELIEVED) / halfWidth(level);
  const told = predictions.flatMap(({ geometry, illuminant, labBefore }, i) => {
    const isFirst =
      predictions.findIndex((one) => one.geometry === geometry && one.illuminant === illuminant) === i;
    const expected = cards.find((card) => card.geometry === geometry && card.illuminant === illuminant);
    if (!expected || !isFirst) return [];
    return ["L*", "a*", "b*"].flatMap((name, axis) => {
      const off = labBefore[axis] - expected.lab[axis];
      const most = (wider * (expected.labHigh[axis] - expected.labLow[axis])) / 2;
      if (Math.abs(off) <= most) return [];
      return `${name} at ${geometry} under ${illuminant} is ${off.toFixed(2)} off what was forecast, believable is ±${most.toFixed(2)}`;
    });
  });
  return told;
}
