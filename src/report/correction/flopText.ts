import type { Correction } from "../../correction/correction.js";
import { faceAndFlopWords } from "../words/faceAndFlopWords.js";
import { shortened } from "../words/fitTable.js";
import { type Standing, standings } from "../words/standings.js";

/** Letters of the name of a target. */
const MOST_LETTERS = 32;

/** What a prediction is of, by how a correction ended. */
export function predictedOf({
  status,
  additions,
}: Pick<Correction, "status" | "additions">):
  | "after the pours"
  | "sprayed so"
  | "poured and sprayed so"
  | null {
  if (status === "other-flake") return null;
  if (status !== "respray") return "after the pours";
  return additions.length > 0 ? "poured and sprayed so" : "sprayed so";
}

/** Whether what is predicted depends on pours, so that what is proved of them may stand beside it. */
export function isOfPours(correction: Pick<Correction, "status" | "additions">): boolean {
  const after = predictedOf(correction);
  return after !== null && after !== "sprayed so";
}

/**
 * From both sides, what the target that is furthest off is against the card, and its flop index; empty where no target was
 * seen at several angles.
 */
export function flopText(correction: Correction): string {
  const { predictions, status } = correction;
  const all = status === "undetermined" ? [] : standings(correction);
  const off = (name: string) =>
    Math.max(
      ...predictions
        .filter(({ target }) => target === name)
        .map(({ deltaE00Before, deltaE00Allowed }) => deltaE00Before / deltaE00Allowed),
    );
  const [worst] = [...all].sort((a, b) => off(b.target) - off(a.target));
  if (worst === undefined) return "";
  const is = `${shortened(worst.target, MOST_LETTERS)} against the card: ${faceAndFlopWords(worst.card, worst.aim)}.`;
  return `${is}${indexText(worst, predictedOf(correction))}`;
}

function indexText({ flop: { card, after, aim } }: Standing, predicted: string | null): string {
  if (card === null || aim === null) return "";
  const then = after === null || predicted === null ? "" : `, ${predicted} ${after.toFixed(1)}`;
  return ` Flop index: card ${card.toFixed(1)}${then}, panel ${aim.toFixed(1)}.`;
}
