import { BELIEF_SIZES, type BeliefSizes } from "../../src/belief/beliefSizes.js";
import { correct } from "../../src/correction/correct.js";
import type { Correction } from "../../src/correction/correction.js";
import { planHoldBack } from "../../src/planning/holdBack/planHoldBack.js";
import { predict } from "../../src/prediction/predict.js";
import type { Job } from "../../src/problem/job.js";
import type { Reading } from "../../src/surface/reading.js";
import type { Grams } from "../../src/toners/pot.js";
import type { Arm, Assignment, SprayedCard } from "./runJob.js";
import { VIEWING } from "./trueColour.js";

/** A card is good enough when it reads this near the panel: what is left to the judged 0.5 is for noise. */
export const GOOD_ENOUGH = 0.3;

/** Only the additions are needed here; what else could be done takes time. */
const GRAMS_ALONE = { alternatives: false, wayOut: false } as const;

/** A cup takes twice the paint that is wanted. */
const CUP = 2;

/** Held back by rule of thumb: all but the largest part of the formula at 65 %, that at 85 %. */
export function ruleOfThumbPot({ formula }: Pick<Assignment, "formula">): Grams {
  const largest = Math.max(...Object.values(formula));
  return Object.fromEntries(
    Object.entries(formula).map(([id, grams]) => [id, tenths((grams === largest ? 0.85 : 0.65) * grams)]),
  );
}

const tenths = (grams: number) => Math.round(10 * grams) / 10;

/** What `correct` says of a pot and its cards. */
function correctionOf(
  { wantedGrams, panel, toners }: Assignment,
  cards: readonly Pick<SprayedCard, "pot" | "card">[],
  belief: Job["belief"] = {},
): Correction {
  const job = {
    toners,
    viewing: VIEWING,
    pot: last(cards).pot,
    cards: cards.map(({ pot, card }) => ({ pot, readings: [card] })),
    targets: [{ name: "panel", readings: [panel] }],
    limits: { potMaxGrams: CUP * wantedGrams },
    tolerance: { edgeDeltaE00: GOOD_ENOUGH },
    belief,
  };
  return correct(job, GRAMS_ALONE);
}

const gramsOf = ({ additions }: Pick<Correction, "additions">): Grams =>
  Object.fromEntries(additions.map(({ toner, grams }) => [toner, grams]));

const pouredBy = (correction: Correction) =>
  correction.card.verdict === "doubted" ? "not believed" : gramsOf(correction);

const last = <T>(cards: readonly T[]): T => cards[cards.length - 1];

/** The model alone: what it says the pot looks like stands in for the card. */
const unanchored: Arm = {
  name: "no card",
  about: "the model alone says what is in the pot; no card is looked at",
  firstPot: ruleOfThumbPot,
  next: (assignment, cards) => {
    const { pot } = last(cards);
    const [{ geometry, grid, reflectance }] = predict({
      toners: assignment.toners,
      viewing: VIEWING,
      pot,
    }).readings;
    const card: Reading = { geometry, grid, reflectance };
    return gramsOf(correctionOf(assignment, [{ pot, card }]));
  },
};

const lastCard: Arm = {
  name: "the last card alone",
  about: "`correct` from the last card, first pot by rule of thumb; earlier cards are forgotten",
  firstPot: ruleOfThumbPot,
  next: (assignment, cards) => pouredBy(correctionOf(assignment, [last(cards)])),
};

const threeQuarters: Arm = {
  name: "75 % steps",
  about: "the same, but three quarters of every addition",
  firstPot: ruleOfThumbPot,
  next: (assignment, cards) => {
    const grams = gramsOf(correctionOf(assignment, [last(cards)]));
    return Object.fromEntries(Object.entries(grams).map(([id, asked]) => [id, tenths(0.75 * asked)]));
  },
};

const ruled: Arm = {
  name: "all cards, first pot by rule of thumb",
  about: "`correct` from all cards of the pot",
  firstPot: ruleOfThumbPot,
  next: (assignment, cards) => pouredBy(correctionOf(assignment, cards)),
};

function plannedPot({ toners, formula, panel, wantedGrams }: Assignment): Grams {
  const plan = planHoldBack({
    toners,
    viewing: VIEWING,
    formulas: [{ name: "formula", grams: formula }],
    panels: [{ name: "panel", readings: [panel] }],
    wantedGrams,
    limits: { potMaxGrams: CUP * wantedGrams },
    options: { draws: 200 },
  });
  return Object.fromEntries(plan.pots[0].pourNow.map(({ toner, grams }) => [toner, grams]));
}

const full: Arm = {
  ...ruled,
  name: "full loop",
  about: "the first pot by `planHoldBack`, then `correct` from all cards of the pot",
  firstPot: plannedPot,
};

/** The full loop with every size of the belief but the noise of the reading, times a factor. */
const sized = (factor: number, name: string): Arm => ({
  name,
  about: `the same, every size of the belief × ${factor}`,
  firstPot: plannedPot,
  next: (assignment, cards) => pouredBy(correctionOf(assignment, cards, sizesTimes(factor))),
});

const KEPT = ["readingSd", "filmScattering"];

const sizesTimes = (factor: number): Partial<BeliefSizes> =>
  Object.fromEntries(
    Object.entries(BELIEF_SIZES).map(([key, value]) => [key, KEPT.includes(key) ? value : factor * value]),
  );

const narrow = sized(0.5, "full loop, beliefs half as wide");
const wide = sized(2, "full loop, beliefs twice as wide");

export const ARMS = { unanchored, lastCard, threeQuarters, ruled, full, narrow, wide } as const;
