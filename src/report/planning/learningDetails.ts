import type { Fault } from "../../belief/fault.js";
import { faultWords } from "../../belief/faultWords.js";
import { LEAST_TAIL } from "../../belief/judge.js";
import { perCent } from "../../core/perCent.js";
import type { CardVerdict, Learning } from "../../planning/learning/learning.js";
import { decimals } from "../words/decimals.js";
import { IN_GRAMS, type MassDisplay, massText, uncalibratedText } from "../words/massText.js";
import { textTable } from "../words/textTable.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";

/** ± of a strength from the sd of its logarithm. */
const spread = (sd: number): string => `±${decimals(100 * sd, sd < 0.0095 ? 1 : 0)} %`;

/** Most explanations of a doubted card. */
const MOST_REASONS = 3;

/** What stands behind what was learnt: doubts with what to do, card by card, every can. */
export function learningDetails(
  learning: Learning,
  names: TonerNames = {},
  display: MassDisplay = IN_GRAMS,
): string {
  const { cards, strengths, warnings } = learning;
  const doubted = cards.filter(({ verdict }) => verdict === "doubted");
  const uncalibrated = uncalibratedFaults(learning, names, display);
  const taught = textTable([
    ["pot", "card", "", "taught (strength against the pot)"],
    ...cardRows(cards, names),
  ]);
  const blocks = [
    ...doubted.map((card) => {
      const { doubt, reasons } = doubtLines(card, names, display);
      const list = reasons.map((reason) => `  - ${reason}`);
      return [doubt, ...(list.length > 0 ? ["  What would explain it, likeliest first:", ...list] : [])].join(
        "\n",
      );
    }),
    `Cards:\n\n${taught}`,
    ...(doubted.length < cards.length ? [strengthsText(strengths, names)] : []),
    ...(uncalibrated === "" ? [] : [uncalibrated]),
    ...(warnings.length > 0 ? [warnings.map(({ message, path }) => `! ${path}: ${message}`).join("\n")] : []),
  ];
  return `${blocks.join("\n\n")}\n`;
}

/** From how many cards something was learnt, in a sentence. */
export function learningHeadline({ cards }: Pick<Learning, "cards">): string {
  const doubted = cards.filter(({ verdict }) => verdict === "doubted").length;
  const all = cards.length === 1 ? "one card" : `${cards.length} cards`;
  if (doubted === 0) return `Learnt from ${all}.`;
  if (doubted === cards.length)
    return cards.length === 1
      ? "Nothing learnt: the card is not believed."
      : "Nothing learnt: no card is believed.";
  return `Learnt from ${cards.length - doubted} of ${cards.length} cards; ${doubted} not believed.`;
}

/** Why a card is not believed and what to do, and what would explain it, the likeliest first. */
export function doubtLines(
  { pot, card, explanations, tail, soundProbability }: CardVerdict,
  names: TonerNames,
  display: MassDisplay,
): { readonly doubt: string; readonly reasons: readonly string[] } {
  const why =
    tail < LEAST_TAIL
      ? "further off than 999 of 1000 sound cards"
      : `sound with a probability of ${perCent(soundProbability)}`;
  return {
    doubt: `${pot}, ${card} is not believed (${why}): re-measure it, stir, or check the last pour.`,
    reasons: explanations
      .slice(0, MOST_REASONS)
      .map(({ fault, probability }) => `${faultText(fault, names, display)} (${perCent(probability)})`),
  };
}

/** Which toners of those explanations are not in the unit that was asked for; empty where there are none. */
export function uncalibratedFaults(
  { cards }: Pick<Learning, "cards">,
  names: TonerNames,
  display: MassDisplay,
): string {
  const doubted = cards.filter(({ verdict }) => verdict === "doubted");
  return uncalibratedText(display, doubted.flatMap(blamedToners), (id) => tonerName(names, id));
}

/** Toners whose grams stand in the explanations of a doubted card. */
function blamedToners({ explanations }: CardVerdict): readonly string[] {
  return explanations.slice(0, MOST_REASONS).flatMap(({ fault }) => ("toner" in fault ? [fault.toner] : []));
}

/** A fault in words. */
export function faultText(fault: Fault, names: TonerNames = {}, display: MassDisplay = IN_GRAMS): string {
  return faultWords(fault, {
    mass: (grams, toner) => massText(grams, display, toner),
    name: (id) => tonerName(names, id),
  });
}

/** A row for each card: pot, card, verdict, what it taught. */
export function cardRows(cards: readonly CardVerdict[], names: TonerNames): readonly (readonly string[])[] {
  return cards.map(({ pot, card, verdict, taught }) => [
    pot,
    card,
    verdict,
    taught.length === 0
      ? verdict === "believed"
        ? "nothing new"
        : ""
      : taught
          .map(({ toner, sdBefore, sd }) => `${tonerName(names, toner)} ${spread(sdBefore)} → ${spread(sd)}`)
          .join(", "),
  ]);
}

function strengthsText(strengths: Learning["strengths"], names: TonerNames): string {
  const rows = strengths.map(({ toner, can = "", strengthBefore, strength, sdInPot = 0 }) => [
    tonerName(names, toner),
    can,
    decimals(strengthBefore, 3),
    decimals(strength, 3),
    spread(sdInPot),
  ]);
  const head = ["toner", "can", "before", "strength", "known to"];
  return `Strength of the cans (only what one is worth against another shows on a card):\n\n${textTable([head, ...rows], { right: [2, 3, 4] })}`;
}
