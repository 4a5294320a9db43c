import type { BenchStep } from "../../record/benchStep.js";
import { shortened } from "../words/fitTable.js";

/** Letters of a name. */
const MOST_LETTERS = 30;

/** What to do before the line that notes it is pasted. */
export function benchStepText(next: BenchStep): string {
  switch (next.kind) {
    case "pour":
      return `pour, stir, spray a card${next.tilt === undefined ? "" : " so"}, let it dry, read it; note what the scale showed:`;
    case "read-card":
      return next.isSameCard
        ? "read the card once more:"
        : "spray a card from the stirred pot, let it dry, read it:";
    case "respray":
      return "spray a card so from the stirred pot, let it dry, read it:";
    case "compare":
      return "look, and put in a grade for each, 0 none to 5 very large, below 0 the other way:";
    case "spray":
      return `paint ${shortened(next.panels.join(", "), MOST_LETTERS)}, then note it:`;
    case "plan":
      return "mend the plan.";
    case "done":
      return next.status === "other-flake" ? "look for a formula with another flake." : "nothing.";
    default:
      return "nothing.";
  }
}
