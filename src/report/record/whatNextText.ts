import { SHORT_CAUTION } from "../../core/caution.js";
import { lyingSo } from "../../problem/spray/flakeWords.js";
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
import { benchStepText } from "./benchStepText.js";

/** Most letters of a name. */
const MOST_LETTERS = 30;

/** What to do now in a recorded job, on one screen, its last line a command to paste. */
export function whatNextText(
  { next, why, costOfOther, plan, correction }: WhatNext,
  pot: Grams,
  {
    names,
    display,
    command,
    mend,
  }: {
    readonly names: TonerNames;
    readonly display: MassDisplay;
    readonly command: string;
    /** What sets the record right where the likeliest explanation holds. */
    readonly mend: string;
  },
): string {
  const nameOf = (id: string) => shortened(tonerName(names, id), MOST_LETTERS);
  const isOver = next.kind === "done" || next.kind === "plan";
  const paste = lines(
    mend === "" ? "" : lines("If 1 is so:", mend, "Otherwise:"),
    `Next: ${benchStepText(next)}`,
    isOver ? "" : command,
  );
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
    next.kind === "pour" && next.tilt !== undefined
      ? `Then stir and spray a card with ${lyingSo(next.tilt)}.`
      : "",
    `${why}${total > 0 ? ` The pot holds ${massText(Number(total.toFixed(1)), display)} (before hardener and reducer).` : ""}`,
    lines(isSprayed ? SHORT_CAUTION : "", paste),
  ]);
}

const DONE = "Done: every panel is painted, or nothing more can be done with this pot.";
const OTHER_FLAKE = "Look for a formula with another flake, and begin another pot";

function headOf(next: BenchStep, display: MassDisplay): string {
  switch (next.kind) {
    case "pour": {
      const off = next.gramsOff ? `Pour off ${massText(next.gramsOff, display)}, stirred. ` : "";
      const into = next.isNewPot ? "Begin another pot. " : "";
      return `${off}${into}${next.pours.length > 0 ? "Pour:" : "Pour the first pot."}`;
    }
    case "read-card":
      return next.isSameCard
        ? "Read the card once more, or look for what was noted wrongly."
        : "Stir, spray a card, let it dry, read it.";
    case "compare":
      return `Hold ${next.look.target} beside ${next.look.card} under ${next.look.illuminant}.`;
    case "respray":
      return `Stir, spray a card with ${lyingSo(next.tilt)}, let it dry, read it.`;
    case "done":
      return next.status === "other-flake" ? `${OTHER_FLAKE}.` : DONE;
    case "spray":
      return `Spray ${shortened(next.panels.join(", "), 2 * MOST_LETTERS)}: ${massText(Number(next.grams.toFixed(1)), display)}.`;
    default:
      return DONE;
  }
}
