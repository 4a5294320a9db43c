import type { Characterisation } from "../../characterisation/characterisation.js";
import { bewareOf } from "../words/bewareOf.js";
import { decimals } from "../words/decimals.js";
import { shortened } from "../words/fitTable.js";
import { lines, SCREEN_COLUMNS, screenText } from "../words/screenText.js";
import { type TonerNames, tonerNames } from "../words/tonerName.js";
import { characterisationHeadline } from "./characterisationHeadline.js";
import { characterisationTables } from "./characterisationTables.js";
import { fitSummary } from "./fitSummary.js";

/** Most samples and most pieces of advice listed. */
const MOST_TOLD = 3;

/** Most letters of a line. */
const MOST_LETTERS = 110;

/**
 * A characterisation on one screen: how well the toners explain the samples, which samples to look at again, what to
 * measure next. Names come from the toners and `names`.
 */
export function characterisationText(characterisation: Characterisation, names: TonerNames = {}): string {
  const { samples, warnings, rank, unknowns } = characterisation;
  const { fitted, leftOut } = fitSummary(samples);
  const { next } = characterisationTables(characterisation, tonerNames(characterisation.toners, names));
  const odd = samples.flatMap(({ name, outlier }) =>
    outlier === undefined ? [] : [shortened(`- ${name}: ${outlier}`, SCREEN_COLUMNS)],
  );
  const advice = next.rows
    .slice(0, MOST_TOLD)
    .map(([, drawdown, over, falls]) =>
      shortened(`- ${drawdown} over ${over}: the doubt falls to ${falls} of what it is`, MOST_LETTERS),
    );
  return screenText(
    [
      characterisationHeadline(characterisation),
      lines(
        samples.length === 0 ? "" : nearText("The samples", fitted),
        leftOut ? nearText("Samples left out of the fit", leftOut) : "",
        rank < unknowns
          ? `Only ${rank} of ${unknowns} unknowns are determined: --details says which are not.`
          : "",
      ),
      odd.length === 0
        ? ""
        : lines(
            "Look at these again, they do not fit with the others:",
            ...odd.slice(0, MOST_TOLD),
            more(odd),
          ),
      advice.length === 0 ? "" : lines("Measure next, the most telling first:", ...advice),
    ],
    bewareOf(warnings),
  );
}

const more = (all: readonly string[]): string =>
  all.length > MOST_TOLD ? `${all.length - MOST_TOLD} more with --details.` : "";

const nearText = (what: string, { median, max }: { readonly median: number; readonly max: number }): string =>
  `${what} are met within ${decimals(median, 2)} ΔE00 (half of them), the worst within ${decimals(max, 2)}.`;
