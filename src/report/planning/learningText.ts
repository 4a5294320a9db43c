import type { CardVerdict, Learning } from "../../planning/learning/learning.js";
import { bewareOf } from "../words/bewareOf.js";
import { decimals } from "../words/decimals.js";
import { fitTable, shortened } from "../words/fitTable.js";
import { IN_GRAMS, type MassDisplay } from "../words/massText.js";
import { lines, screenText } from "../words/screenText.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";
import { doubtLines, learningHeadline } from "./learningDetails.js";

/** Most doubted cards and most cans that are listed. */
const MOST_DOUBTED = 2;
const MOST_CANS = 6;

/** Most letters of a name. */
const MOST_LETTERS = 30;

/** What was learnt, on one screen: which cards are not believed and what to do, which cans are known better than before. */
export function learningText(
  learning: Learning,
  names: TonerNames = {},
  display: MassDisplay = IN_GRAMS,
): string {
  const { cards, warnings } = learning;
  const doubted = cards.filter(({ verdict }) => verdict === "doubted");
  const more = doubted.length - MOST_DOUBTED;
  const short = Object.fromEntries(
    Object.entries(names).map(([id, name]) => [id, shortened(name, MOST_LETTERS)]),
  );
  return screenText(
    [
      learningHeadline(learning),
      ...doubted.slice(0, MOST_DOUBTED).map((card) => doubtText(card, short, display)),
      more > 0 ? `${more} more cards that are not believed with --details.` : "",
      cansText(learning, short),
    ],
    bewareOf(warnings),
  );
}

function doubtText(card: CardVerdict, names: TonerNames, display: MassDisplay): string {
  const { doubt, reasons } = doubtLines(card, names, display);
  return lines(doubt, ...reasons.slice(0, 2).map((reason, i) => `  ${i + 1}  ${reason}`));
}

/** Cans that a card taught something about, the most changed first. */
function cansText({ cards, strengths }: Learning, names: TonerNames): string {
  const taught = new Set(cards.flatMap((card) => card.taught.map(({ toner }) => toner)));
  const known = strengths
    .filter(({ toner }) => taught.has(toner))
    .map((one) => ({ ...one, change: one.strength / one.strengthBefore }))
    .sort((a, b) => Math.abs(Math.log(b.change)) - Math.abs(Math.log(a.change)));
  if (known.length === 0) return "";
  const rows = known
    .slice(0, MOST_CANS)
    .map(({ toner, can, change, sdInPot = 0 }, i) => [
      `${i + 1}`,
      tonerName(names, toner),
      can === undefined ? "" : shortened(can, 12),
      changeText(change),
      `±${Number((100 * sdInPot).toPrecision(1))} %`,
    ]);
  const left = known.length - rows.length;
  const head = ["", "toner", "can", "found", "known to"];
  return lines(
    "Strength against what it was thought to be (known against the rest of the pot):",
    fitTable({ head, rows, right: [3, 4] }, 1),
    left > 0 ? `${left} more with --details.` : "",
  );
}

function changeText(change: number): string {
  const perCent = decimals(Math.abs(100 * (change - 1)), 0);
  if (perCent === "0") return "as thought";
  return `${perCent} % ${change > 1 ? "stronger" : "weaker"}`;
}
