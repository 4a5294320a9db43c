import type { Characterisation } from "../../characterisation/characterisation.js";
import type { Table } from "../words/table.js";
import { textTable } from "../words/textTable.js";
import { type TonerNames, tonerNames } from "../words/tonerName.js";
import { fitSentence } from "./characterisationHeadline.js";
import { characterisationTables } from "./characterisationTables.js";

const WORST = 3;

/**
 * What stands behind a characterisation: warnings first, then how well the toners explain the samples, the worst of
 * these, what is known of each toner, and what to measure next. Names come from the toners and `names`.
 */
export function characterisationDetails(characterisation: Characterisation, names: TonerNames = {}): string {
  const { samples, warnings } = characterisation;
  const tables = characterisationTables(characterisation, tonerNames(characterisation.toners, names));
  const worst = { ...tables.samples, rows: tables.samples.rows.slice(0, WORST) };
  const outliers = samples.flatMap(({ name, outlier }) =>
    outlier === undefined ? [] : `- ${name}: ${outlier}`,
  );
  const blocks = [
    ...(warnings.length > 0
      ? [warnings.map(({ message, path }) => `! ${path ? `${path}: ` : ""}${message}`).join("\n")]
      : []),
    titled(
      "Colour difference of the samples from what the toners say of them (CIEDE2000):",
      tables.differences,
    ),
    ...(worst.rows.length > 0 ? [titled("The worst of them:", worst)] : []),
    ...(outliers.length > 0
      ? [`These do not fit with the others; look at them again:\n\n${outliers.join("\n")}`]
      : []),
    titled("What is known of each toner (standard deviations are medians over the bands):", tables.toners),
    ...(tables.shared.rows.length > 0 ? [titled("Found together with K and S:", tables.shared)] : []),
    fitSentence(characterisation),
    ...(tables.next.rows.length > 0
      ? [titled("What to measure next, the most telling first:", tables.next)]
      : []),
  ];
  return `${blocks.join("\n\n")}\n`;
}

function titled(title: string, { head, rows, right }: Table): string {
  return `${title}\n\n${textTable([head, ...rows], { right })}`;
}
