import type { Correction } from "../../correction/correction.js";
import { IN_GRAMS } from "../words/massText.js";
import type { Table } from "../words/table.js";
import { textTable } from "../words/textTable.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";
import { certificateText, wayOutText } from "./certificateText.js";
import { correctionNotes } from "./correctionNotes.js";
import { correctionTables } from "./correctionTables.js";
import type { CorrectionTextOptions } from "./correctionText.js";
import { isOfPours } from "./flopText.js";
import { forecastText } from "./forecastText.js";
import { nextStepText } from "./nextStepText.js";

/**
 * What stands behind a correction: differences per target, geometry and light, what is proved, the forecast, what each
 * step would cost, other ways, why these toners, all warnings.
 */
export function correctionDetails(
  correction: Correction,
  names: TonerNames = {},
  { certificate, nextStep, display = IN_GRAMS }: CorrectionTextOptions = {},
): string {
  const { status, warnings, wayOut, forecast } = correction;
  const { differences, flop, obstacles, pours } = correctionTables(correction, names, display);
  const { otherWays, why } = correctionNotes(correction, names, display);
  const nameOf = (id: string) => tonerName(names, id);
  const isTinted = isOfPours(correction);
  const blocks = [
    ...(pours.rows.length > 0 ? [`All that the correction asks for:\n\n${table(pours)}`] : []),
    ...noted("What is in the way", obstacles),
    ...(status === "undetermined"
      ? []
      : [`Colour difference from the targets (CIEDE2000, predicted):\n\n${table(differences)}`]),
    ...(status !== "undetermined" && flop.rows.length > 0
      ? [`Flop index (Alman 1987), face and flop:\n\n${table(flop)}`]
      : []),
    certificate && isTinted ? certificateText(certificate, nameOf) : "",
    wayOut ? wayOutText(wayOut, nameOf, display) : "",
    forecast ? forecastText(forecast, names, display) : "",
    nextStep ? nextStepText(nextStep, names, display) : "",
    ...noted("Other ways", otherWays),
    ...noted("Why these toners", why),
    ...noted(
      "Notes",
      warnings.map(({ message, path }) => `${path ? `${path}: ` : ""}${message}`),
    ),
  ];
  return `${blocks.filter((block) => block !== "").join("\n\n")}\n`;
}

function noted(title: string, lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : [`${title}:\n\n${lines.map((line) => `  ${line}`).join("\n")}`];
}

function table({ head, rows, right }: Table): string {
  return textTable([head, ...rows], { right });
}
