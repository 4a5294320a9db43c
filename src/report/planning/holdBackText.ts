import { SHORT_CAUTION } from "../../core/caution.js";
import { perCent } from "../../core/perCent.js";
import type { HoldBackPlan, PlannedPot } from "../../planning/holdBack/holdBackPlan.js";
import { bewareOf } from "../words/bewareOf.js";
import { chanceText } from "../words/chanceText.js";
import { decimals } from "../words/decimals.js";
import { fitTable, shortened } from "../words/fitTable.js";
import { IN_GRAMS, inGramsText, type MassDisplay, massCell, massHead, massText } from "../words/massText.js";
import { lines, screenText } from "../words/screenText.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";
import { holdBackHeadline, paintFor } from "./holdBackTables.js";

/** Most rows of a table; further toners are listed side by side. */
const MOST_ROWS = 8;

/** Most toners listed side by side. */
const MOST_TOLD = 12;

/** Most letters of a name. */
const MOST_LETTERS = 30;

/** A plan for the painter on one screen: what the sun took, what to weigh and keep back, what it promises, the next step. */
export function holdBackText(
  plan: HoldBackPlan,
  names: TonerNames = {},
  display: MassDisplay = IN_GRAMS,
  next = "",
): string {
  const nameOf = (id: string) => shortened(tonerName(names, id), MOST_LETTERS);
  const headline = lines(holdBackHeadline(plan), fadeText(plan, nameOf));
  if (plan.status === "unexplained") {
    return screenText([
      headline,
      "Weigh nothing yet. Read the panels again where they are clean and polished, or add the formula that they were painted with to the plan.",
      "--details shows what was fitted.",
    ]);
  }
  const [pot] = plan.pots;
  const others = plan.pots.length - 1;
  return screenText(
    [
      headline,
      lines(
        plan.pots.length === 1 ? "Weigh now:" : `Weigh now, for ${listed(pot.panels)}:`,
        weighText(pot, nameOf, display),
        inGramsText(
          display,
          pot.pourNow.map(({ toner }) => toner),
        ),
        `The pot is for ${massText(paintFor(pot), display)} of paint (all before hardener and reducer).`,
        others > 0 ? `${others} more ${others === 1 ? "pot" : "pots"} with --details.` : "",
      ),
      `Every panel can then be reached by adding alone in ${chanceText(pot.held.reachProbability)}; without keeping back in ${chanceText(pot.full.reachProbability)}. Expect ${decimals(pot.held.cards, 0)} cards.`,
      next === ""
        ? lines("Next: stir, spray a card, let it dry, read it.", SHORT_CAUTION)
        : lines(SHORT_CAUTION, next),
    ],
    bewareOf(plan.warnings),
  );
}

/** What the sun took most of, on the panel that lost most. */
function fadeText({ panels }: HoldBackPlan, nameOf: (id: string) => string): string {
  const lost = panels.flatMap(({ panel, remaining }) => remaining.map((toner) => ({ panel, ...toner })));
  if (lost.length === 0) return "";
  const most = lost.reduce((one, other) => (other.fraction < one.fraction ? other : one));
  // Where the interval reaches 1, nothing may be gone.
  if (!(most.high < 1)) return "";
  return `The sun took most from ${nameOf(most.toner)}: ${perCent(most.fraction)} of it is left on ${shortened(most.panel, MOST_LETTERS)}.`;
}

function weighText({ pourNow }: PlannedPot, nameOf: (id: string) => string, display: MassDisplay): string {
  const pours = [...pourNow].sort((a, b) => b.grams - a.grams);
  if (pours.length > MOST_ROWS) {
    const told = pours
      .slice(0, MOST_TOLD)
      .map(({ toner, grams }) => `${nameOf(toner)} ${massText(grams, display, toner)}`);
    const left = pours.length - told.length;
    return `${told.join(", ")}${left > 0 ? `; ${left} smaller ones are among the --details` : ""}`;
  }
  const rows = pours.map(({ toner, grams, keptBackGrams }, i) => [
    `${i + 1}`,
    nameOf(toner),
    massCell(grams, display, toner),
    massCell(keptBackGrams, display, toner),
  ]);
  return fitTable({ head: ["", "toner", massHead(display), "keep back"], rows, right: [2, 3] }, 1);
}

const listed = (names: readonly string[]): string => shortened(names.join(", "), 2 * MOST_LETTERS);
