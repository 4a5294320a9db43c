import type { Certificate } from "../../certificate/records/certificate.js";
import { SHORT_CAUTION } from "../../core/caution.js";
import { sum } from "../../core/sum.js";
import type { Correction } from "../../correction/correction.js";
import type { NextStep } from "../../planning/nextStep/nextStep.js";
import { totalGrams } from "../../toners/pot.js";
import { bewareOf } from "../words/bewareOf.js";
import { chanceText } from "../words/chanceText.js";
import { differenceText } from "../words/differenceText.js";
import { fitTable, shortened } from "../words/fitTable.js";
import { IN_GRAMS, inGramsText, type MassDisplay, massText } from "../words/massText.js";
import { MOST_ROWS, recipeText } from "../words/recipeText.js";
import { lines, screenText } from "../words/screenText.js";
import { type StepToTake, stepToTake } from "../words/stepToTake.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";
import { cardDoubts, correctionHeadline, expectedText } from "./correctionHeadline.js";
import { obstacleTexts, poursTable } from "./correctionTables.js";
import { flopText } from "./flopText.js";

/** What a text may say beside the correction itself, and how. */
export interface CorrectionTextOptions {
  /** What `certify` says of the correction. */
  readonly certificate?: Certificate;
  /** What `adviseNextStep` says of the correction. */
  readonly nextStep?: NextStep;
  /** The unit of the amounts. */
  readonly display?: MassDisplay;
  /** What to say as the next step instead of the usual: it ends with a line that can be pasted. */
  readonly next?: (step: StepToTake) => string;
}

/** Most letters of a name. */
const MOST_LETTERS = 40;

/** Steps at which nothing is sprayed. */
const NOTHING_SPRAYED: readonly StepToTake["step"][] = ["re-measure", "compare", "other-flake"];

/** Most obstacles that are named. */
const MOST_OBSTACLES = 2;

/**
 * A correction for the painter at the scale, on one screen: where the job stands, what to do now, what to expect of it,
 * what to beware of, the next step, the caution. Everything else is in `correctionDetails`.
 */
export function correctionText(
  correction: Correction,
  names: TonerNames = {},
  { certificate, nextStep, display = IN_GRAMS, next }: CorrectionTextOptions = {},
): string {
  const step = stepToTake(correction, nextStep);
  const nameOf = (id: string) => shortened(tonerName(names, id), MOST_LETTERS);
  const style = { nameOf, display, prices: nextStep?.prices };
  const isSprayed = !NOTHING_SPRAYED.includes(step.step);
  return screenText(
    [
      lines(
        correctionHeadline(correction, { step: step.step, withinNow: nextStep?.withinNow ?? null }),
        flopText(correction),
        inTheWay(correction, style, certificate),
      ),
      lines(...toDo(correction, step, style)),
      expectation(correction, step),
      next
        ? lines(isSprayed ? SHORT_CAUTION : "", next(step))
        : lines(nextText(step), isSprayed ? SHORT_CAUTION : ""),
    ],
    bewareOf(correction.warnings),
  );
}

interface Style {
  readonly nameOf: (id: string) => string;
  readonly display: MassDisplay;
  readonly prices: NextStep["prices"] | undefined;
}

/** Why nothing that is added to this pot matches, and whether that is proved; empty where something does. */
function inTheWay(
  correction: Correction,
  { nameOf, display }: Style,
  certificate: Certificate | undefined,
): string {
  if (correction.status !== "out-of-reach") return "";
  const why = obstacleTexts(correction, nameOf, display)
    .slice(0, MOST_OBSTACLES)
    .map((obstacle) => `- ${obstacle}`);
  const least = certificate?.worstOfAllowed.atLeast ?? 0;
  const proof =
    certificate?.verdict === "proved-out-of-reach"
      ? [`Proved: whatever is added, a panel stays at ${least.toPrecision(2)} times what is allowed or more.`]
      : certificate?.verdict === "not-proved"
        ? ["Not proved: nothing better was found, which does not say that there is nothing."]
        : [];
  return lines(...why, ...proof);
}

/** What to do now. */
function toDo(correction: Correction, step: StepToTake, style: Style): readonly string[] {
  const { grams = {}, gramsOff = 0 } = step;
  const { display, nameOf, prices } = style;
  const inPot = correction.potGramsAfter - sum(correction.additions.map((one) => one.grams));
  const uncalibrated = inGramsText(display, Object.keys(grams));
  switch (step.step) {
    case "good-enough":
      return [
        prices
          ? `Paint. One more card would cost ${prices.card} minutes and is not expected to gain as much.`
          : "Paint: add nothing.",
      ];
    case "blend":
      return [
        "Paint and blend every edge out into its neighbour: another card is not expected to gain what it costs.",
      ];
    case "re-measure":
      return reMeasureText(correction, style);
    case "respray":
      return ["Spray another card from this pot with the flakes lying so, and read it."];
    case "other-flake":
      return ["Look for a formula with another flake."];
    case "compare":
      return ["Pour nothing yet: one more look tells more.", lookText(step)];
    case "pour-off":
      return [
        `Pour off ${massText(tenths(gramsOff), display)} of ${massText(tenths(inPot), display)}, stirred; then pour:`,
        recipeText(grams, nameOf, display),
        potText(inPot - gramsOff + totalGrams(grams), display),
        uncalibrated,
      ];
    case "new-pot":
      if (Object.keys(grams).length === 0) {
        return ["Start a new pot: what would have to be added costs more. --details names its price."];
      }
      return [
        "Start a new pot:",
        recipeText(grams, nameOf, display),
        potText(totalGrams(grams), display),
        uncalibrated,
      ];
    case "pour": {
      const table = poursTable(correction, grams, nameOf, display);
      const isTold =
        correction.status !== "good-enough" &&
        table.rows.length === Object.keys(grams).length &&
        table.rows.length <= MOST_ROWS;
      const first = step.pour === "first" && isTold;
      return [
        "Zero the scale with the cup on it, then pour in this order:",
        isTold ? fitTable(table, 1) : recipeText(grams, nameOf, display),
        `${potText(inPot + totalGrams(grams), display)}${first ? " These are the first grams only: the next card says how many more." : ""}`,
        uncalibrated,
      ];
    }
  }
}

function reMeasureText(correction: Correction, { nameOf, display }: Style): readonly string[] {
  const doubts = cardDoubts(correction, nameOf, display);
  if (doubts.length > 0) {
    return [
      `It would fit, likeliest first:\n${doubts.map((doubt, i) => `  ${i + 1}  ${doubt}`).join("\n")}`,
      "Pour nothing. Look at the notes and the tins and set them right, or read the card again.",
    ];
  }
  return [
    correction.status === "undetermined"
      ? "Pour nothing. Read the card and the panels again."
      : "Pour nothing yet. Read the card and the panels once more: that is cheap and may change what to do.",
  ];
}

const tenths = (grams: number): number => Number(grams.toFixed(1));

const potText = (grams: number, display: MassDisplay): string =>
  `The pot then holds ${massText(tenths(grams), display)} (before hardener and reducer).`;

/** What the next card will show, and whether too much can be put right. */
function expectation(correction: Correction, { step, pour, chances: ofStep }: StepToTake): string {
  const { expected, forecast, status, wayOut } = correction;
  if (step === "pour-off" || step === "new-pot") {
    const then = step === "pour-off" ? wayOut?.pourOff?.then : wayOut?.newPot;
    if (!then) return "";
    const within = then.isWithinTolerance
      ? "within tolerance of every panel"
      : "nearer, not within tolerance";
    return `Expect it ${within}: ${differenceText(then.weightedDeltaE00)} off over all panels (ΔE00).`;
  }
  if (step !== "pour") return "";
  // Where the card is good enough, the forecast is of the pot as it is.
  const chances = ofStep ?? (status === "good-enough" ? undefined : forecast?.[pour ?? "full"]);
  const isAnswer = pour === "full" && status !== "good-enough" && expected !== null;
  const near = isAnswer
    ? expectedText(correction)
    : chances
      ? `Expect the next card within tolerance in ${chanceText(chances.withinProbability)}.`
      : "";
  const back = chances
    ? `Too much can be put right by adding in ${chanceText(1 - chances.noReturnProbability)}.`
    : "";
  return lines(near, back);
}

/** The look that would tell most. */
function lookText({ look }: StepToTake): string {
  return look
    ? `Hold ${look.target} beside ${look.card} under ${look.illuminant}, and note what you see.`
    : "";
}

function nextText({ step }: StepToTake): string {
  if (step === "good-enough" || step === "blend" || step === "other-flake") return "";
  if (step === "respray") return "Next: stir, spray a card so, let it dry, read it.";
  if (step === "compare") return "Next: note what you see.";
  return step === "re-measure"
    ? "Next: note the new reading."
    : "Next: stir, spray a card, let it dry, read it.";
}
