import type { Certificate } from "../certificate/records/certificate.js";
import type { Correction } from "../correction/correction.js";
import type { NextStep } from "../planning/nextStep/nextStep.js";
import { SPRAYING_CAUTION } from "./caution.js";
import { certificateText, wayOutText } from "./certificateText.js";
import type { Table } from "./characterisationTables.js";
import { cardDoubts, correctionHeadline, expectedText } from "./correctionHeadline.js";
import { correctionNotes } from "./correctionNotes.js";
import { correctionTables } from "./correctionTables.js";
import { forecastText } from "./forecastText.js";
import { IN_GRAMS, type MassDisplay, massText } from "./massText.js";
import { nextStepText } from "./nextStepText.js";
import { textTable } from "./textTable.js";
import { type TonerNames, tonerName } from "./tonerName.js";

/** What a text may say beside the correction itself, and how. */
export interface CorrectionTextOptions {
  /** What `certify` says of the correction. */
  readonly certificate?: Certificate;
  /** What `adviseNextStep` says of the correction. */
  readonly nextStep?: NextStep;
  /** The unit of the amounts. */
  readonly display?: MassDisplay;
}

/** A correction for the painter at the scale: pours in order with the running total, what to expect, cautions. */
export function correctionText(
  correction: Correction,
  names: TonerNames = {},
  { certificate, nextStep, display = IN_GRAMS }: CorrectionTextOptions = {},
): string {
  const { additions, potGramsAfter, warnings, wayOut } = correction;
  const { pours, differences, obstacles, uncalibrated } = correctionTables(correction, names, display);
  const { otherWays, why } = correctionNotes(correction, names, display);
  const nameOf = (id: string) => tonerName(names, id);
  // Said at the top already.
  const told = warnings.filter(({ code }) => code !== "card-not-from-pot");
  const blocks = [
    correctionHeadline(correction),
    ...doubtsText(cardDoubts(correction, names, display)),
    ...(obstacles.length > 0 ? [obstacles.map((obstacle) => `- ${obstacle}`).join("\n")] : []),
    ...(additions.length > 0
      ? [
          `Zero the scale with the cup on it, then pour in this order:\n\n${table(pours)}\n\n  In the cup afterwards: ${massText(potGramsAfter, display)}.${uncalibrated === "" ? "" : `\n  ${uncalibrated}`}`,
        ]
      : []),
    ...[expectedText(correction)].filter((text) => text !== ""),
    `Colour difference from the targets (CIEDE2000, predicted):\n\n${table(differences)}`,
    ...[
      certificate ? certificateText(certificate, nameOf) : "",
      wayOut ? wayOutText(wayOut, nameOf, display) : "",
    ].filter((text) => text !== ""),
    ...(correction.forecast ? [forecastText(correction.forecast, names, display)] : []),
    ...(nextStep ? [nextStepText(nextStep, names, display)] : []),
    ...noted("Other ways", otherWays),
    ...noted("Why these toners", why),
    ...(told.length > 0
      ? [told.map(({ message, path }) => `! ${path ? `${path}: ` : ""}${message}`).join("\n")]
      : []),
    ...(additions.length > 0 ? [SPRAYING_CAUTION] : []),
  ];
  return `${blocks.join("\n\n")}\n`;
}

function doubtsText(doubts: readonly string[]): readonly string[] {
  if (doubts.length === 0) return [];
  const list = doubts.map((doubt, i) => `  ${i + 1}  ${doubt}`).join("\n");
  return [
    `It fits, likeliest first:\n\n${list}\n\nLook at the notes and the tins, set it right, and read the card again.`,
  ];
}

function noted(title: string, lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : [`${title}:\n\n${lines.map((line) => `  ${line}`).join("\n")}`];
}

function table({ head, rows, right }: Table): string {
  return textTable([head, ...rows], { right });
}
