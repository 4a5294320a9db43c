import type { Correction, Obstacle } from "../correction/correction.js";
import { SPRAYING_CAUTION } from "./caution.js";
import { colourWords } from "./colourWords.js";
import { gramsText } from "./gramsText.js";
import { textTable } from "./textTable.js";
import { type TonerNames, tonerName } from "./tonerName.js";

const HEADLINES = {
  corrected: "Corrected: with these pours every target is predicted within its tolerance.",
  "good-enough": "Good enough: the card is within tolerance of every target already. Add nothing.",
  "out-of-reach": "Out of reach: no additions were found that bring every target within its tolerance.",
  undetermined: "Undetermined: the numbers given cannot tell what to add.",
} as const satisfies Record<Correction["status"], string>;

/** A correction for the painter at the scale: pours in order with the running total, what to expect, cautions. */
export function correctionText(correction: Correction, names: TonerNames = {}): string {
  const nameOf = (id: string) => tonerName(names, id);
  const { additions, obstacles, warnings } = correction;
  const blocks = [
    HEADLINES[correction.status],
    ...(obstacles.length > 0
      ? [obstacles.map((obstacle) => `- ${obstacleText(obstacle, nameOf)}`).join("\n")]
      : []),
    ...(additions.length > 0 ? [poursText(correction, nameOf)] : []),
    matchText(correction),
    ...(warnings.length > 0
      ? [warnings.map(({ message, path }) => `! ${path ? `${path}: ` : ""}${message}`).join("\n")]
      : []),
    ...(additions.length > 0 ? [SPRAYING_CAUTION] : []),
  ];
  return `${blocks.join("\n\n")}\n`;
}

function poursText(
  { additions, predictions, potGramsAfter }: Correction,
  nameOf: (id: string) => string,
): string {
  let onScale = 0;
  let colour = predictions[0].labBefore;
  const rows = additions.map(({ toner, grams, labAfter }, i) => {
    onScale += grams;
    const does = colourWords(colour, labAfter);
    colour = labAfter;
    return [`${i + 1}`, nameOf(toner), gramsText(grams), gramsText(onScale), does];
  });
  const table = textTable([["", "pour", "grams", "scale shows", "which makes it"], ...rows], {
    right: [2, 3],
  });
  return `Zero the scale with the cup on it, then pour in this order:\n\n${table}\n\n  In the cup afterwards: ${gramsText(potGramsAfter)} g.`;
}

function matchText({ predictions }: Correction): string {
  const rows = predictions.map((prediction) => [
    prediction.target,
    prediction.geometry,
    prediction.illuminant,
    prediction.deltaE00Before.toFixed(2),
    prediction.deltaE00After.toFixed(2),
    prediction.deltaE00Allowed.toFixed(2),
    colourWords(prediction.labTarget, prediction.labAfter),
  ]);
  const head = ["target", "geometry", "light", "card", "after", "allowed", "against the target it will be"];
  return `Colour difference from the targets (CIEDE2000, predicted):\n\n${textTable([head, ...rows], { right: [3, 4, 5] })}`;
}

function obstacleText(obstacle: Obstacle, nameOf: (id: string) => string): string {
  switch (obstacle.kind) {
    case "too-much-in-pot":
      return `the pot holds about ${gramsText(obstacle.grams)} g too much ${nameOf(obstacle.toner)}, which cannot be taken out`;
    case "stock":
      return `all the ${nameOf(obstacle.toner)} in stock is used`;
    case "room":
      return "the cup is full";
    case "pours":
      return "it would take more pours than are allowed";
    case "scale-step":
      return "the scale's step is too coarse: without rounding it would match";
    case "toners":
      return "no mix of these toners makes that colour";
  }
}
