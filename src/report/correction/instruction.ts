import { sum } from "../../core/sum.js";
import type { Correction } from "../../correction/correction.js";
import type { NextStep } from "../../planning/nextStep/nextStep.js";
import { type Grams, totalGrams } from "../../toners/pot.js";
import { chanceText } from "../words/chanceText.js";
import { differenceText } from "../words/differenceText.js";
import { inGramsText, type MassDisplay, massText } from "../words/massText.js";
import { lines } from "../words/screenText.js";
import type { StepToTake } from "../words/stepToTake.js";
import type { Table } from "../words/table.js";
import { cardDoubts, expectedText } from "./correctionHeadline.js";
import { poursTable } from "./correctionTables.js";

/** What to do now, the same on the screen and on the sheet. */
export interface Instruction {
  /** Before the pours, a line each. */
  readonly lead: readonly string[];
  /** The pours, where the step has any; as a table where it is known what each does to the colour. */
  readonly pours?: { readonly grams: Grams; readonly table?: Table };
  /** Below the pours. */
  readonly after: readonly string[];
}

/** How names, amounts and prices are said. */
export interface Style {
  readonly nameOf: (id: string) => string;
  readonly display: MassDisplay;
  readonly prices: NextStep["prices"] | undefined;
}

/** Steps at which nothing is sprayed. */
export const NOTHING_SPRAYED: readonly StepToTake["step"][] = ["re-measure", "compare", "other-flake"];

const IN_ORDER = "Zero the scale with the cup on it, then pour in this order:";

/** What to do now by a step of a correction. */
export function instruction(correction: Correction, step: StepToTake, style: Style): Instruction {
  const { grams = {}, gramsOff = 0 } = step;
  const { display, nameOf, prices } = style;
  const inPot = correction.potGramsAfter - sum(correction.additions.map((one) => one.grams));
  const say = (...lead: readonly string[]): Instruction => ({ lead, after: [] });
  const pouring = (lead: string, potGrams: number, table?: Table): Instruction => ({
    lead: [lead],
    pours: { grams, ...(table && { table }) },
    after: [potText(potGrams, display), inGramsText(display, Object.keys(grams))].filter(
      (line) => line !== "",
    ),
  });
  switch (step.step) {
    case "good-enough":
      return say(
        prices
          ? `Paint. One more card would cost ${prices.card} minutes and is not expected to gain as much.`
          : "Paint: add nothing.",
      );
    case "blend":
      return say(
        "Paint and blend every edge out into its neighbour: another card is not expected to gain what it costs.",
      );
    case "re-measure":
      return say(...reMeasureLines(correction, style));
    case "respray": {
      const so = "spray a card with the flakes lying so, and read it.";
      if (Object.keys(grams).length === 0) return say(`Pour nothing. From this pot ${so}`);
      const { after, ...poured } = pouring(
        IN_ORDER,
        inPot + totalGrams(grams),
        poursTable(correction, grams, nameOf, display),
      );
      return { ...poured, after: [...after, `Then ${so}`] };
    }
    case "other-flake":
      return say("Look for a formula with another flake.");
    case "compare":
      return say("Pour nothing yet: one more look tells more.", ...lookLines(step));
    case "pour-off":
      return pouring(
        `Pour off ${massText(tenths(gramsOff), display)} of ${massText(tenths(inPot), display)}, stirred; then pour:`,
        inPot - gramsOff + totalGrams(grams),
      );
    case "new-pot":
      return Object.keys(grams).length === 0
        ? say("Start a new pot: what would have to be added costs more. --details names its price.")
        : pouring("Start a new pot:", totalGrams(grams));
    case "pour": {
      const table = poursTable(correction, grams, nameOf, display);
      // Of a card that is good enough the additions are none, and of the binder nobody asks what it does.
      const isTold = correction.status !== "good-enough" && table.rows.length === Object.keys(grams).length;
      const { after, ...told } = pouring(IN_ORDER, inPot + totalGrams(grams), isTold ? table : undefined);
      if (step.pour !== "first" || !isTold) return { ...told, after };
      const [holds, ...rest] = after;
      return {
        ...told,
        after: [`${holds} These are the first grams only: the next card says how many more.`, ...rest],
      };
    }
  }
}

function reMeasureLines(correction: Correction, { nameOf, display }: Style): readonly string[] {
  const doubts = cardDoubts(correction, nameOf, display);
  if (doubts.length > 0) {
    return [
      "It would fit, likeliest first:",
      ...doubts.map((doubt, i) => `  ${i + 1}  ${doubt}`),
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
export function expectation(correction: Correction, { step, pour, chances: ofStep }: StepToTake): string {
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
function lookLines({ look }: StepToTake): readonly string[] {
  return look
    ? [`Hold ${look.target} beside ${look.card} under ${look.illuminant}, and note what you see.`]
    : [];
}
