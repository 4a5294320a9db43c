import { SHORT_CAUTION } from "../../core/caution.js";
import type { BenchStep } from "../../record/benchStep.js";
import type { WhatNext } from "../../record/whatNext.js";
import { type Grams, totalGrams } from "../../toners/pot.js";
import { correctionText } from "../correction/correctionText.js";
import { holdBackText } from "../planning/holdBackText.js";
import { shortened } from "../words/fitTable.js";
import { type MassDisplay, massText } from "../words/massText.js";
import { recipeText } from "../words/recipeText.js";
import { lines, screenText } from "../words/screenText.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";

/** Letters of a name. */
const MOST_LETTERS = 30;

/** What to do now in a recorded job, on one screen, its last line a command to paste. */
export function whatNextText(
  { next, why, costOfOther, plan, correction }: WhatNext,
  pot: Grams,
  {
    names,
    display,
    command,
  }: { readonly names: TonerNames; readonly display: MassDisplay; readonly command: string },
): string {
  const nameOf = (id: string) => shortened(tonerName(names, id), MOST_LETTERS);
  const paste = lines(`Next: ${doing(next)}`, next.kind === "done" || next.kind === "plan" ? "" : command);
  if (plan) return holdBackText(plan, names, display, paste);
  if (correction) {
    const { nextStep } = correction;
    const cost =
      costOfOther === null || !(costOfOther > 0)
        ? ""
        : `Anything else is expected to cost ${Math.max(1, Math.round(costOfOther))} minutes more.`;
    const said = () => lines(cost, paste);
    return correctionText(correction, names, { display, next: said, ...(nextStep && { nextStep }) });
  }
  const isSprayed = next.kind !== "done" && next.kind !== "start";
  const total = totalGrams(pot);
  return screenText([
    headOf(next, display),
    next.kind === "pour" && next.pours.length > 0
      ? recipeText(Object.fromEntries(next.pours.map(({ toner, grams }) => [toner, grams])), nameOf, display)
      : "",
    `${why}${total > 0 ? ` The pot holds ${massText(Number(total.toFixed(1)), display)} (before hardener and reducer).` : ""}`,
    lines(isSprayed ? SHORT_CAUTION : "", paste),
  ]);
}

function headOf(next: BenchStep, display: MassDisplay): string {
  switch (next.kind) {
    case "pour": {
      const off = next.gramsOff ? `Pour off ${massText(next.gramsOff, display)}, stirred. ` : "";
      const into = next.isNewPot ? "Begin another pot. " : "";
      return `${off}${into}${next.pours.length > 0 ? "Pour:" : "Pour the first pot."}`;
    }
    case "read-card":
      return "Stir, spray a card, let it dry, read it.";
    case "spray":
      return `Spray ${shortened(next.panels.join(", "), 2 * MOST_LETTERS)}: ${massText(Number(next.grams.toFixed(1)), display)}.`;
    default:
      return "Done: every panel is painted, or nothing more can be done with this pot.";
  }
}

function doing(next: BenchStep): string {
  switch (next.kind) {
    case "pour":
      return "pour, stir, spray a card, let it dry, read it; note what the scale showed:";
    case "read-card":
      return "spray a card from the stirred pot, let it dry, read it:";
    case "spray":
      return `paint ${shortened(next.panels.join(", "), MOST_LETTERS)}, then note it:`;
    case "plan":
      return "mend the plan.";
    default:
      return "nothing.";
  }
}
