import { perCent } from "../../core/perCent.js";
import type { Correction } from "../../correction/correction.js";
import type { Forecast } from "../../forecast/forecast.js";
import type { Step, StepChoice } from "./nextStep.js";

/** Why a step was chosen, a sentence each. */
export function stepReasons(
  best: Pick<StepChoice, "step" | "pour">,
  {
    correction,
    forecast,
    withinNow,
  }: { readonly correction: Correction; readonly forecast: Forecast; readonly withinNow: number },
): readonly string[] {
  const worst = correction.predictions.reduce((most, one) =>
    one.deltaE00Before / one.deltaE00Allowed > most.deltaE00Before / most.deltaE00Allowed ? one : most,
  );
  const isOneAngle = correction.predictions.every(({ geometry }) => geometry === worst.geometry);
  const at = isOneAngle ? "" : ` at ${worst.geometry}`;
  const card = `${correction.status === "by-eye" ? "By what was seen, the card is" : "The card is"} ${worst.deltaE00Before.toFixed(2)} from ${worst.target}${at} under ${worst.illuminant}, ${worst.deltaE00Allowed.toFixed(2)} being allowed; with its uncertainty the paint is within tolerance of every target with a probability of ${perCent(withinNow)}.`;
  const pour = forecast[best.pour ?? "full"];
  const isPouring = forecast.pours.length > 0;
  const pouring = isPouring
    ? [
        `After ${best.pour === "first" ? "the first pours" : "pouring all"} the next card is within tolerance with ${perCent(pour.withinProbability)}${best.step === "pour" ? "; what is then left can be corrected again, blended or left" : ""}.`,
      ]
    : [];
  const why: Readonly<Record<Step, readonly string[]>> = {
    "good-enough": ["Whatever else is done costs more than it can be expected to gain."],
    blend: [
      `Blended, the colour may be off by more than at an edge; another card costs more than it can be expected to gain.`,
    ],
    pour: [
      ...(best.pour === "first"
        ? [`Pouring all would leave no way back with ${perCent(forecast.full.noReturnProbability)}.`]
        : []),
    ],
    // Known before steps are weighed.
    respray: [],
    "other-flake": [],
    compare: ["Another look costs nothing, and by eye alone nothing is certain yet."],
    "re-measure": ["Another reading is cheap and may change what is best."],
    "pour-off": [
      "By adding alone the targets were not reached within this cup; from less of the pot they are.",
    ],
    "new-pot": [
      correction.status === "out-of-reach"
        ? "By adding alone the targets were not reached within this cup."
        : "What would have to be added costs more than a new pot.",
    ],
  };
  return [card, ...pouring, ...why[best.step]];
}
