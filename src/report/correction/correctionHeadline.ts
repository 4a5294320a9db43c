import { faultWords } from "../../belief/faultWords.js";
import type { Correction, TargetPrediction } from "../../correction/correction.js";
import type { Step } from "../../planning/nextStep/nextStep.js";
import { flakeWords } from "../../problem/spray/flakeWords.js";
import { allowedText } from "../words/allowedText.js";
import { chanceText } from "../words/chanceText.js";
import { differenceText } from "../words/differenceText.js";
import { shortened } from "../words/fitTable.js";
import { type MassDisplay, massText } from "../words/massText.js";

/** Most faults and most targets that are named. */
const MOST_TOLD = 3;

/** Most letters of a target's name. */
const MOST_LETTERS = 32;

/** Where the job stands, in a sentence, with the numbers that matter. */
export function correctionHeadline(
  correction: Correction,
  { step, withinNow = null }: { readonly step?: Step; readonly withinNow?: number | null } = {},
): string {
  const { status, stopReason } = correction;
  const sure = withinNow === null ? "" : `, true in ${chanceText(withinNow)}`;
  switch (status) {
    case "corrected":
      return `Not there yet: ${standing(correction)}.`;
    case "good-enough":
      return step === undefined || step === "good-enough"
        ? `Good enough: ${standing(correction)}${sure}.`
        : `Within tolerance by this card${sure}: ${standing(correction)}.`;
    case "out-of-reach":
      return `Out of reach by adding to this pot: ${standing(correction)}.`;
    case "by-eye":
      return `By eye, so nothing is promised: ${standing(correction)}${withinNow === null ? "" : `; within tolerance now in ${chanceText(withinNow)}`}.`;
    case "respray":
      return `Not there yet: ${standing(correction)}. ${flakeWords(correction.spray, correction.additions.length > 0)}`;
    case "other-flake":
      return `Pour nothing. ${flakeWords(correction.spray)}`;
    case "undetermined":
      return stopReason === "card-not-from-pot"
        ? "Stop: this card was not sprayed from this pot, or one of the two is noted wrongly. Nothing was worked out from it."
        : `Undetermined: the numbers given cannot tell what to add${UNREADABLE[stopReason] ?? ""}. Nothing was worked out.`;
  }
}

const UNREADABLE: Readonly<Record<string, string>> = {
  "readings-censored": ": too many bands are below what the instrument can read",
  stopped: ": the work allowed did not suffice",
};

const share = ({ deltaE00Before, deltaE00Allowed }: TargetPrediction) => deltaE00Before / deltaE00Allowed;

/** How far the card is from every panel, at its worst geometry and light. */
function standing({ predictions }: Correction): string {
  const names = [...new Set(predictions.map(({ target }) => target))];
  const worst = names.map((name) =>
    predictions
      .filter(({ target }) => target === name)
      .reduce((most, one) => (share(one) > share(most) ? one : most)),
  );
  const told = [...worst].sort((a, b) => share(b) - share(a)).slice(0, MOST_TOLD);
  const isOneLight = told.every(({ illuminant }) => illuminant === told[0].illuminant);
  const isOneAngle = predictions.every(({ geometry }) => geometry === predictions[0].geometry);
  const said = told.map(({ target, deltaE00Before, deltaE00Allowed, illuminant, geometry }, i) => {
    const at = isOneAngle ? "" : ` at ${geometry}`;
    const off = `${differenceText(deltaE00Before, deltaE00Allowed)}${i === 0 ? " off" : ""}${at}`;
    return `${shortened(target, MOST_LETTERS)} ${off}${isOneLight ? "" : ` under ${illuminant}`}`;
  });
  const left = worst.length - told.length;
  const more = left > 0 ? `, ${left} more nearer` : "";
  const allowed = told.map(({ deltaE00Allowed }) => allowedText(deltaE00Allowed).replace(/0$/, ""));
  const isOneAllowance = allowed.every((one) => one === allowed[0]);
  const limits = isOneAllowance ? allowed[0] : listed(allowed);
  return `${said.join(", ")}${more} (ΔE00${isOneLight ? `, ${told[0].illuminant}` : ""}; ${limits} allowed)`;
}

const listed = (items: readonly string[]): string =>
  items.length < 2 ? items.join("") : `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;

/** What would explain a card that is not believed, the likeliest first; empty of one that is. */
export function cardDoubts(
  { card }: Correction,
  nameOf: (id: string) => string,
  display: MassDisplay,
): readonly string[] {
  if (card.verdict === "believed") return [];
  const style = {
    mass: (grams: number, toner: string) => massText(grams, display, toner),
    name: nameOf,
  };
  return card.explanations.slice(0, MOST_TOLD).map(({ fault }) => faultWords(fault, style));
}

/** How near the next card will be when all is poured; empty where nothing can be told. */
export function expectedText({ expected, additions }: Correction): string {
  if (!expected || additions.length === 0) return "";
  const { withinProbability, deltaE00Median, deltaE00Most } = expected;
  return `Expect the next card within tolerance in ${chanceText(withinProbability)}: ${differenceText(deltaE00Median)} off (ΔE00) as likely as not, ${differenceText(deltaE00Most)} at most in 9 of 10.`;
}
