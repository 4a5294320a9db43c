import { faultWords } from "../belief/faultWords.js";
import type { Correction } from "../correction/correction.js";
import { decimals } from "./decimals.js";
import { IN_GRAMS, type MassDisplay, massText } from "./massText.js";
import { type TonerNames, tonerName } from "./tonerName.js";

/** Faults that are told. */
const MOST_TOLD = 3;

/** Where the job stands, in a sentence, with the chance that the next card is within tolerance. */
export function correctionHeadline({ status, stopReason, expected }: Correction): string {
  const chance = expected ? `${decimals(100 * expected.withinProbability, 0)} cases of 100` : "";
  switch (status) {
    case "corrected":
      return `Predicted within tolerance of every target once this is poured; the next card will show it in ${chance}.`;
    case "good-enough":
      return `Good enough: the card is within tolerance of every target already. Add nothing. Another card of this pot would show the same in ${chance}.`;
    case "out-of-reach":
      return `Out of reach: no additions were found that bring every target within its tolerance; the next card would be there in ${chance}.`;
    case "undetermined":
      return stopReason === "card-not-from-pot"
        ? "Stop: this card was not sprayed from this pot, or one of the two is noted wrongly. Nothing was worked out from it."
        : "Undetermined: the numbers given cannot tell what to add.";
  }
}

/** What would explain a card that is not believed, the likeliest first, and what to do; empty of one that is. */
export function cardDoubts(
  { card }: Correction,
  names: TonerNames = {},
  display: MassDisplay = IN_GRAMS,
): readonly string[] {
  if (card.verdict === "believed") return [];
  const style = {
    mass: (grams: number, toner: string) => massText(grams, display, toner),
    name: (id: string) => tonerName(names, id),
  };
  return card.explanations.slice(0, MOST_TOLD).map(({ fault }) => faultWords(fault, style));
}

/** How near the next card will be; empty where nothing can be told. */
export function expectedText({ expected, additions }: Correction): string {
  if (!expected || additions.length === 0) return "";
  const { deltaE00Median, deltaE00Most } = expected;
  return `Expect the next card ${decimals(deltaE00Median, 1)} off (ΔE00) as likely as not, no more than ${decimals(deltaE00Most, 1)} in nine cases of ten.`;
}
