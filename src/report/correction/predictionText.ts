import type { Prediction } from "../../prediction/predict.js";
import { gramsText } from "../words/gramsText.js";
import { textTable } from "../words/textTable.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";

/** A prediction for a person: the pot, then XYZ, Lab and LCh per geometry and light. */
export function predictionText(
  { pot, predictions, observer, warnings }: Prediction,
  names: TonerNames = {},
): string {
  const inPot = Object.entries(pot).map(([id, grams]) => [tonerName(names, id), gramsText(grams)]);
  const number = (value: number) => value.toFixed(2);
  const rows = predictions.map(({ geometry, illuminant, xyz, lab }) => {
    const hue = (Math.atan2(lab[2], lab[1]) * 180) / Math.PI;
    const polar = [Math.hypot(lab[1], lab[2]), hue < 0 ? hue + 360 : hue];
    return [geometry, illuminant, ...[...xyz, ...lab, ...polar].map(number)];
  });
  const head = ["geometry", "light", "X", "Y", "Z", "L*", "a*", "b*", "C*", "h"];
  const blocks = [
    `The pot, in grams:\n\n${textTable([["toner", "grams"], ...inPot], { right: [1] })}`,
    `Predicted colour of an opaque film (observer CIE ${observer}):\n\n${textTable([head, ...rows], { right: [2, 3, 4, 5, 6, 7, 8, 9] })}`,
    ...warnings.map(({ message }) => `! ${message}`),
  ];
  return `${blocks.join("\n\n")}\n`;
}
