import type { Lab } from "../../colorimetry/lab.js";
import type { ColourMove, TonerDirection, TonerDirections } from "../../prediction/tonerDirections.js";
import { colourWords } from "../words/colourWords.js";
import { decimals } from "../words/decimals.js";
import { gramsText } from "../words/gramsText.js";
import { textTable } from "../words/textTable.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";
import { NEARLY, SAME } from "./directionGroups.js";

/**
 * The directions for a person, strongest toner first: how strong, what one per cent of the pot does in words and
 * numbers per geometry and light, what else would do the same.
 */
export function directionsDetails(answer: TonerDirections, names: TonerNames = {}): string {
  const { colours, directions, potGrams, isAnchored, observer, warnings } = answer;
  const nameOf = (id: string) => tonerName(names, id);
  const sorted = [...directions].sort((a, b) => b.deltaE00PerGram - a.deltaE00PerGram);
  const strength = textTable(
    [
      ["toner", "ΔE00 per g", "does the same as"],
      ...sorted.map((direction) => [
        nameOf(direction.toner),
        decimals(direction.deltaE00PerGram, 3),
        alikeText(direction, nameOf),
      ]),
    ],
    { right: [1] },
  );
  const from = isAnchored ? "from the card" : "from the model alone, not tied to a card";
  const blocks = [
    `How strong each toner is now (observer CIE ${observer}, ${from}):\n\n${strength}`,
    ...colours.map(({ geometry, illuminant, lab }, c) => {
      const rows = sorted.map(({ toner, perGram, perCent }) => [
        nameOf(toner),
        ...numbers(perGram[c]),
        decimals(perCent[c].deltaE00, 2),
        colourWords(lab, moved(lab, perCent[c])),
      ]);
      const head = ["one gram of", "ΔL*", "ΔC*", "Δh", "ΔE00", "one %: ΔE00", "one per cent makes it"];
      const where = `${geometry}, ${illuminant}, now L* a* b* = ${lab.map((value) => decimals(value, 2)).join(", ")}`;
      const table = textTable([head, ...rows], { right: [1, 2, 3, 4, 5] });
      return `${where}; one per cent of the pot is ${gramsText(potGrams / 100)} g:\n\n${table}`;
    }),
    ...warnings.map(({ message, path }) => `! ${path ? `${path}: ` : ""}${message}`),
  ];
  return `${blocks.join("\n\n")}\n`;
}

function alikeText({ alike }: TonerDirection, nameOf: (id: string) => string): string {
  const said = alike.filter(({ cosine }) => cosine >= NEARLY);
  if (said.length === 0) return "–";
  return said
    .map(({ toner, cosine }) => `${cosine >= SAME ? "" : "nearly "}${nameOf(toner)} (${decimals(cosine, 3)})`)
    .join(", ");
}

function numbers({ deltaLab, deltaChroma, deltaHue, deltaE00 }: ColourMove): readonly string[] {
  return [deltaLab[0], deltaChroma, deltaHue, deltaE00].map((value) => decimals(value, 2));
}

function moved([lightness, a, b]: Lab, { deltaLab }: ColourMove): Lab {
  return [lightness + deltaLab[0], a + deltaLab[1], b + deltaLab[2]];
}
