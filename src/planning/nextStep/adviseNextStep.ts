import { number } from "../../core/shape/number.js";
import { optional } from "../../core/shape/optional.js";
import { record } from "../../core/shape/record.js";
import { sum } from "../../core/sum.js";
import type { Choice, Correction, PourOff } from "../../correction/correction.js";
import {
  type CheckedForecastOptions,
  FORECAST_DEFAULTS,
  FORECAST_OPTIONS,
  type ForecastOptions,
} from "../../forecast/forecastOptions.js";
import { drawCards, type NextCard, nextCard } from "../../forecast/nextCard.js";
import { createRandom } from "../../numeric/probability/random.js";
import { type Goal, isWithin } from "../../problem/goal.js";
import { checkJob, type Job } from "../../problem/job.js";
import { prepareProblem } from "../../problem/problem.js";
import { flakeWords } from "../../problem/spray/flakeWords.js";
import { STEP_PRICES_SHAPE, type StepPrices } from "../../problem/stepPrices.js";
import { type Grams, gramsInOrder } from "../../toners/pot.js";
import { lossOf, mean } from "./lossOf.js";
import type { NextStep, Step, StepChoice } from "./nextStep.js";
import { pourToWeigh } from "./pourToWeigh.js";
import { stepReasons } from "./stepReasons.js";
import { worthOfReading } from "./worthOfReading.js";

/** Prices and doubts. */
export interface NextStepOptions {
  /** In the place of those of the job. */
  readonly prices?: Partial<StepPrices>;
  /** For a correction without a forecast; the doubts and the seed count for every step. */
  readonly forecast?: ForecastOptions;
  /** How often card and targets were read, where the job holds the means; 1 unless said. Doubts speak of one reading. */
  readonly readings?: number;
}

interface CheckedOptions {
  readonly prices?: StepPrices;
  readonly forecast: CheckedForecastOptions;
  readonly readings: number;
}

const OPTIONS = record<CheckedOptions, NextStepOptions>({
  prices: optional(STEP_PRICES_SHAPE),
  forecast: optional(FORECAST_OPTIONS, FORECAST_DEFAULTS),
  readings: optional(number({ min: 1, whole: true }), 1),
});

/** By eye, the steps to stop or to read again are replaced by the look that would tell most. */
const LOOK_FIRST: readonly Step[] = ["good-enough", "blend", "re-measure"];

/** Worlds drawn for each step. */
const DRAWS = 300;

/**
 * The stop rule: of good enough, blend, one more pour, re-measure, pour off and new pot the one of least expected loss,
 * over worlds that agree with the card, looking one card ahead (theory.md, When to stop). `correction` is the answer for
 * `job`. A card that is not believed, or readings that carry no answer, are read again before anything else.
 */
export function adviseNextStep(job: Job, correction: Correction, options: NextStepOptions = {}): NextStep {
  const { readings, forecast: asked, ...given } = OPTIONS.check(options, "options");
  const checked = checkJob(job);
  const prices = given.prices ?? checked.prices;
  if (correction.status === "undetermined") {
    const reasons = [
      correction.stopReason === "card-not-from-pot"
        ? "The card cannot come from the pot as it is noted: look at the notes and the tins, then read it again."
        : correction.stopReason === "stopped"
          ? "The work allowed did not suffice to tell what to add: allow more."
          : "The readings cannot tell what to add: read card and targets again.",
    ];
    return { step: "re-measure", reasons, choices: [], withinNow: null, prices };
  }

  if (correction.status === "respray" || correction.status === "other-flake") {
    const grams = gramsOf(correction);
    const isTinted = correction.additions.length > 0;
    const reasons = [flakeWords(correction.spray, isTinted)];
    const step = { step: correction.status, ...(isTinted && { grams }) };
    return { ...step, reasons, choices: [], withinNow: null, prices };
  }

  const prepared = prepareProblem(checked);
  const { problem } = prepared;
  const { goal, bench, model } = problem;
  const inOrder = (grams: Grams) => gramsInOrder(grams, model.set.toners);
  const { additions, forecast } = pourToWeigh(checked, prepared, correction, asked);
  const { pourOff = null, newPot = null } = correction.wayOut ?? {};
  const afterPouringOff = pourOff && inWholePot(pourOff, inOrder);
  const cardAfter = (grams: Float64Array) => againstTarget(nextCard(prepared, grams), readings);
  const loss = lossOf(goal, checked, prices);
  const cost = (grams: Float64Array) => prices.gram * sum(grams);

  const now = cardAfter(new Float64Array(additions.length));
  const asItIs = drawCards(now, DRAWS, createRandom(asked.seed));
  // A card on target with known cans: only spraying and reading are in doubt.
  const cardAt = (colour: Float64Array) =>
    prices.card + mean(drawCards({ ...now, mean: colour }, DRAWS, createRandom(asked.seed)).map(loss.least));
  const byAdding = cardAfter(additions).mean;
  const again = cardAt(byAdding);
  const isMatchable =
    newPot?.isWithinTolerance ?? !correction.obstacles.some(({ kind }) => kind === "toners");
  const anew = cardAt(isMatchable ? betweenTargets(goal, byAdding) : byAdding);
  const thrown = prices.newPot + cost(bench.pot);
  const hasEdge = checked.targets.some(({ role }) => role === "edge");

  /** Whichever is less on the next card: to leave it, or `other`. */
  const leaving = (grams: Float64Array, other: number) => {
    const cards = drawCards(cardAfter(grams), DRAWS, createRandom(asked.seed));
    return mean(cards.map((lab) => Math.min(loss.least(lab), other)));
  };
  const isWhole = forecast.pours.every(({ grams, firstGrams }) => grams === firstGrams);
  const pours =
    forecast.pours.length === 0 ? [] : isWhole ? (["full"] as const) : (["full", "first"] as const);
  const going: readonly StepChoice[] = [
    ...pours.map((pour): StepChoice => {
      const grams = inOrder(forecast[pour].grams);
      const price = prices.card + cost(grams);
      const { grams: poured, withinProbability, noReturnProbability: lost } = forecast[pour];
      const expected =
        (1 - lost) * leaving(grams, again) + lost * leaving(grams, thrown + prices.card + anew);
      const chances = { withinProbability, noReturnProbability: lost };
      return { step: "pour", pour, grams: poured, chances, price, expectedLoss: price + expected };
    }),
    ...(pourOff && afterPouringOff
      ? [
          {
            step: "pour-off" as const,
            gramsOff: pourOff.grams,
            grams: gramsOf(pourOff.then),
            price: prices.card + prices.gram * (pourOff.grams + pourOff.then.grams),
            expectedLoss:
              prices.card +
              prices.gram * (pourOff.grams + pourOff.then.grams) +
              leaving(afterPouringOff, again),
          },
        ]
      : []),
    // A new pot is off by the doubt of its cans, as the first was: it takes a first card and a correction.
    {
      step: "new-pot",
      ...(newPot && { grams: newPot.recipe }),
      price: thrown + prices.card,
      expectedLoss: thrown + prices.card + anew,
    },
  ];
  const staying: readonly StepChoice[] = [
    ...(isWithin(goal, now.mean)
      ? [{ step: "good-enough" as const, price: 0, expectedLoss: mean(asItIs.map(loss.left)) }]
      : []),
    ...(hasEdge
      ? [{ step: "blend" as const, price: prices.blend, expectedLoss: mean(asItIs.map(loss.blended)) }]
      : []),
  ];
  const otherwise = Math.min(...going.map(({ expectedLoss }) => expectedLoss));
  const worth = worthOfReading(now, goal, loss, { readings, otherwise, hasEdge, seed: asked.seed });
  const best = Math.min(otherwise, ...staying.map(({ expectedLoss }) => expectedLoss));
  const twice: StepChoice = {
    step: "re-measure",
    price: prices.reading,
    expectedLoss: prices.reading + best - worth,
  };
  const choices = [...staying, ...going, twice].sort((a, b) => a.expectedLoss - b.expectedLoss);
  const withinNow = asItIs.filter((lab) => isWithin(goal, lab)).length / asItIs.length;
  const look = correction.compareNext;
  if (look && LOOK_FIRST.includes(choices[0].step)) {
    const reasons = stepReasons({ step: "compare" }, { correction, forecast, withinNow });
    return { step: "compare", look, reasons, choices, withinNow, prices };
  }
  const [{ price: _, expectedLoss: __, ...what }] = choices;
  const reasons = stepReasons(what, { correction, forecast, withinNow });
  return { ...what, reasons, choices, withinNow, prices };
}

/** The next card with the doubt of the targets' readings in its spread; both are means of `readings` readings. */
function againstTarget(card: NextCard, readings: number): NextCard {
  const covariance = card.covariance.map((value, i) => value + (2 / readings - 1) * card.ofReading[i]);
  return { ...card, covariance, ofReading: card.ofReading.map((value) => (2 * value) / readings) };
}

const gramsOf = ({ additions }: Pick<Choice, "additions">): Grams =>
  Object.fromEntries(additions.map(({ toner, grams }) => [toner, grams]));

/** Additions to a part of the pot, as they would be to the whole of it: the mix is the same. */
function inWholePot({ share, then }: PourOff, inOrder: (grams: Grams) => Float64Array): Float64Array {
  return inOrder(gramsOf(then)).map((grams) => grams / (1 - share));
}

/** Colours (laid out like `lab`) in the middle of all targets; where no target was read, those of `lab`. */
function betweenTargets({ aims }: Goal, lab: Float64Array): Float64Array {
  return lab.map((value, i) => {
    const here = aims.filter(({ place }) => i >= place && i < place + 3);
    const weight = here.reduce((sum, aim) => sum + aim.weight, 0);
    if (!(weight > 0)) return here.length > 0 ? here[0].lab[i - here[0].place] : value;
    return here.reduce((sum, aim) => sum + aim.weight * aim.lab[i - aim.place], 0) / weight;
  });
}
