import type { Certificate } from "../../certificate/records/certificate.js";
import { SHORT_CAUTION } from "../../core/caution.js";
import type { Correction } from "../../correction/correction.js";
import type { NextStep } from "../../planning/nextStep/nextStep.js";
import { bewareOf } from "../words/bewareOf.js";
import { fitTable, shortened } from "../words/fitTable.js";
import { IN_GRAMS, type MassDisplay } from "../words/massText.js";
import { MOST_ROWS, recipeText } from "../words/recipeText.js";
import { lines, screenText } from "../words/screenText.js";
import { type StepToTake, stepToTake } from "../words/stepToTake.js";
import { type TonerNames, tonerName } from "../words/tonerName.js";
import { correctionHeadline } from "./correctionHeadline.js";
import { obstacleTexts } from "./correctionTables.js";
import { flopText } from "./flopText.js";
import { expectation, instruction, NOTHING_SPRAYED, type Style } from "./instruction.js";

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

/** What to do now, the pours as a table where there is room for it. */
function toDo(correction: Correction, step: StepToTake, style: Style): readonly string[] {
  const { lead, pours, after } = instruction(correction, step, style);
  if (!pours) return [...lead, ...after];
  const { grams, table } = pours;
  const isTold = table !== undefined && table.rows.length <= MOST_ROWS;
  return [...lead, isTold ? fitTable(table, 1) : recipeText(grams, style.nameOf, style.display), ...after];
}

function nextText({ step }: StepToTake): string {
  if (step === "good-enough" || step === "blend" || step === "other-flake") return "";
  if (step === "respray") return "Next: stir, spray a card so, let it dry, read it.";
  if (step === "compare") return "Next: note what you see.";
  return step === "re-measure"
    ? "Next: note the new reading."
    : "Next: stir, spray a card, let it dry, read it.";
}
