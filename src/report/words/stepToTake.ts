import type { Correction } from "../../correction/correction.js";
import type { NextStep, StepChoice } from "../../planning/nextStep/nextStep.js";

/** What to do, and the grams of it. */
export type StepToTake = Pick<StepChoice, "step" | "pour" | "grams" | "gramsOff" | "chances"> &
  Pick<NextStep, "look">;

/** The step that an answer asks for: its `nextStep` if there is one, else what follows from the correction alone. */
export function stepToTake(correction: Correction, nextStep?: NextStep): StepToTake {
  if (nextStep) return nextStep;
  const { status, additions, forecast, wayOut, compareNext } = correction;
  const all = Object.fromEntries(additions.map(({ toner, grams }) => [toner, grams]));
  switch (status) {
    case "respray":
      return { step: status, ...(additions.length > 0 && { grams: all }) };
    case "other-flake":
      return { step: status };
    case "undetermined":
      return { step: "re-measure" };
    case "good-enough":
      return { step: "good-enough" };
    case "by-eye":
      if (additions.length === 0) {
        return compareNext ? { step: "compare", look: compareNext } : { step: "good-enough" };
      }
      return { step: "pour", pour: "full", grams: all };
    case "corrected":
      return forecast?.pour === "first"
        ? { step: "pour", pour: "first", grams: forecast.first.grams }
        : { step: "pour", pour: "full", grams: all };
    case "out-of-reach": {
      const { pourOff, newPot } = wayOut ?? {};
      if (pourOff) {
        const grams = Object.fromEntries(pourOff.then.additions.map((one) => [one.toner, one.grams]));
        return { step: "pour-off", gramsOff: pourOff.grams, grams };
      }
      if (newPot) return { step: "new-pot", grams: newPot.recipe };
      return additions.length > 0 ? { step: "pour", pour: "full", grams: all } : { step: "blend" };
    }
  }
}
