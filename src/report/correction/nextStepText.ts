import type { NextStep, StepChoice } from "../../planning/nextStep/nextStep.js";
import { IN_GRAMS, type MassDisplay, massText } from "../words/massText.js";
import { textTable } from "../words/textTable.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";

const STEPS: Readonly<Record<StepChoice["step"], string>> = {
  "good-enough": "good enough: paint",
  blend: "blend",
  pour: "one more pour",
  "re-measure": "read again",
  compare: "look once more",
  respray: "spray a card otherwise",
  "other-flake": "another flake",
  "pour-off": "pour some off, then add",
  "new-pot": "a new pot",
};

const words = ({ step, pour }: Pick<StepChoice, "step" | "pour">): string =>
  `${STEPS[step]}${pour === "first" ? ", the first grams" : pour === "full" ? ", all of it" : ""}`;

/** What to do now that the card is read, why, and what each step would cost. */
export function nextStepText(
  next: NextStep,
  names: TonerNames = {},
  display: MassDisplay = IN_GRAMS,
): string {
  const rows = next.choices.map((choice) => [
    words(choice),
    choice.price.toFixed(0),
    choice.expectedLoss.toFixed(0),
  ]);
  const table = textTable([["step", "price", "expected in all"], ...rows], { right: [1, 2] });
  const { card, blend, redo } = next.prices;
  const prices = `Prices (minutes unless they were given in another unit): a card ${card}, blending ${blend}, doing the panels again ${redo}.`;
  const off = next.gramsOff === undefined ? [] : [`${massText(next.gramsOff, display)} off`];
  const pours = Object.entries(next.grams ?? {}).map(
    ([id, grams]) => `${massText(grams, display, id)} ${tonerName(names, id)}`,
  );
  const { look } = next;
  const where = look ? ` (${look.target} beside ${look.card} under ${look.illuminant})` : "";
  return [
    `Next: ${words(next)}${pours.length > 0 ? ` (${[...off, ...pours].join(", ")})` : where}.`,
    next.reasons.map((reason) => `- ${reason}`).join("\n"),
    ...(rows.length > 0 ? [table, `  ${prices}`] : []),
  ].join("\n\n");
}
