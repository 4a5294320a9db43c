import type { BindingBands, Certificate } from "../../certificate/records/certificate.js";
import { perCent } from "../../core/perCent.js";
import type { WayOut } from "../../correction/correction.js";
import { IN_GRAMS, type MassDisplay, massCell, massHead, massText } from "../words/massText.js";
import { textTable } from "../words/textTable.js";

/** What is proved of a correction, in a sentence or two, and what stands in the way; empty where nothing is proved. */
export function certificateText(certificate: Certificate, nameOf: (id: string) => string): string {
  const { verdict, weightedDeltaE00, worstOfAllowed, binding } = certificate;
  const bound = weightedDeltaE00.atLeast;
  const best = `no additions get below ${bound.toFixed(2)} weighted ΔE00; this answer has ${weightedDeltaE00.reached.toFixed(2)}`;
  switch (verdict) {
    case "matched":
      return bound > 0 ? `Proved: ${best}.` : "";
    case "undetermined":
      return "";
    case "proved-out-of-reach":
      return [
        `Proved: whatever is added within stock and cup, some target stays at ${worstOfAllowed.atLeast.toFixed(2)} times its tolerance or more, and ${best}.`,
        ...binding.map((bands) => bindingText(bands, nameOf)),
      ].join("\n");
    case "not-proved":
      return [
        bound > 0
          ? `Not proved out of reach; proved: ${best}.`
          : "Not proved out of reach: nothing better was found.",
        ...binding.map((bands) => bindingText(bands, nameOf)),
      ].join("\n");
  }
}

function bindingText(
  { target, geometry, from, to, mixIs, toners }: BindingBands,
  nameOf: (id: string) => string,
): string {
  const where = from === to ? `At ${from} nm` : `Between ${from} and ${to} nm`;
  const does = mixIs === "too dark" ? "lighten" : "darken";
  const names = toners.map(nameOf).join(", ");
  const help =
    toners.length === 0
      ? `nothing that stock and cup allow would ${does} it there`
      : `${names} would ${does} it there, but do more harm elsewhere or find no room in the cup`;
  return `- ${where} the best mix stays ${mixIs} for ${target} (${geometry}); ${help}`;
}

/** What else can be done: pour off and add, or start a new pot. */
export function wayOutText(
  { pourOff, newPot }: WayOut,
  nameOf: (id: string) => string,
  display: MassDisplay = IN_GRAMS,
): string {
  const blocks: string[] = [];
  if (pourOff) {
    const { share, grams, then } = pourOff;
    const pours = then.additions
      .map((pour) => `${massText(pour.grams, display, pour.toner)} ${nameOf(pour.toner)}`)
      .join(", ");
    blocks.push(
      `Pour off ${massText(grams, display)} first (${perCent(share)} of the pot, stirred), then add ${pours || "nothing"}: every target within its tolerance, weighted ΔE00 ${then.weightedDeltaE00.toFixed(2)}.`,
    );
  }
  if (newPot) {
    const rows = Object.entries(newPot.recipe)
      .sort(([, a], [, b]) => b - a)
      .map(([id, grams]) => [nameOf(id), massCell(grams, display, id)]);
    const verdict = newPot.isWithinTolerance
      ? "every target within its tolerance"
      : "the nearest found with these toners, out of tolerance still";
    blocks.push(
      `${pourOff ? "Or start" : "Start"} a new pot (${verdict}, weighted ΔE00 ${newPot.weightedDeltaE00.toFixed(2)}):\n\n${textTable([["toner", massHead(display)], ...rows], { right: [1] })}`,
    );
  }
  return blocks.join("\n\n");
}
