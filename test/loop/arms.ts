import { correct } from "../../src/correction/correct.js";
import type { Correction } from "../../src/correction/correction.js";
import type { Limits } from "../../src/correction/limits.js";
import { planHoldBack } from "../../src/planning/holdBack/planHoldBack.js";
import { learnStrengths } from "../../src/planning/learning/learnStrengths.js";
import { predict } from "../../src/prediction/predict.js";
import type { Reading } from "../../src/surface/reading.js";
import type { Grams } from "../../src/toners/pot.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";
import type { Arm, Assignment, SprayedCard } from "./runJob.js";
import { VIEWING } from "./trueColour.js";

/** A card is good enough when it reads this near the panel: what is left to the judged 0.5 is for noise. */
export const GOOD_ENOUGH = 0.3;

/** Only the additions are needed here; what is proved of them and what else could be done takes time. */
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

/** What `correct` says of a pot and its card, with the toners as they are believed to be. */
function correctionOf(
  { wantedGrams, panel }: Assignment,
  toners: TonerSet,
  { pot, card }: Pick<SprayedCard, "pot" | "card">,
  limits: Limits = {},
): Correction {
  const job = {
    toners,
    viewing: VIEWING,
    pot,
    card: { readings: [card] },
    targets: [{ name: "panel", readings: [panel] }],
    limits: { potMaxGrams: CUP * wantedGrams, ...limits },
    tolerance: { edgeDeltaE00: GOOD_ENOUGH },
  };
  return correct(job, GRAMS_ALONE);
}

const gramsOf = ({ additions }: Correction): Grams =>
  Object.fromEntries(additions.map(({ toner, grams }) => [toner, grams]));

const last = (cards: readonly SprayedCard[]): SprayedCard => cards[cards.length - 1];

/** Toners that are not in the pot have shown their strength on no card: they are left out while others will do. */
function stayingWithThePot(assignment: Assignment, toners: TonerSet, sprayed: SprayedCard): Grams {
  const isNew = ({ id }: { readonly id: string }) => !(sprayed.pot[id] > 0);
  const stockGrams = Object.fromEntries(toners.toners.filter(isNew).map(({ id }) => [id, 0]));
  const staying = correctionOf(assignment, toners, sprayed, { stockGrams });
  if (staying.status === "corrected" || staying.status === "good-enough") return gramsOf(staying);
  const free = correctionOf(assignment, toners, sprayed);
  const isBetter = free.weightedDeltaE00.after < staying.weightedDeltaE00.after;
  return gramsOf(isBetter ? free : staying);
}

/** The model alone: what it says the pot looks like stands in for the card. */
const unanchored: Arm = {
  name: "no anchor",
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
    return gramsOf(correctionOf(assignment, assignment.toners, { pot, card }));
  },
};

const anchored: Arm = {
  name: "anchored, no learning",
  about: "`correct` from the last card, every toner as free as any other",
  firstPot: ruleOfThumbPot,
  next: (assignment, cards) => gramsOf(correctionOf(assignment, assignment.toners, last(cards))),
};

const threeQuarters: Arm = {
  name: "75 % steps",
  about: "the same, but three quarters of every addition",
  firstPot: ruleOfThumbPot,
  next: (assignment, cards) => {
    const grams = gramsOf(correctionOf(assignment, assignment.toners, last(cards)));
    return Object.fromEntries(Object.entries(grams).map(([id, asked]) => [id, tenths(0.75 * asked)]));
  },
};

const staying: Arm = {
  name: "anchored, toners of the pot first",
  about:
    "`correct` from the last card with the toners that are in the pot, others only where those do not come near enough",
  firstPot: ruleOfThumbPot,
  next: (assignment, cards) => stayingWithThePot(assignment, assignment.toners, last(cards)),
};

/** The toners with what all cards of this pot have taught; a card that is not believed teaches nothing. */
function learnt({ toners }: Assignment, cards: readonly SprayedCard[]): TonerSet {
  const pot = {
    name: "pot",
    cards: cards.map(({ pot, card }, i) => ({ name: `card ${i + 1}`, pot, readings: [card] })),
  };
  return learnStrengths({ toners, pots: [pot] }).toners;
}

const learning: Arm = {
  name: "learning, every toner free",
  about: "`learnStrengths` from all cards so far, then `correct` with every toner as free as any other",
  firstPot: ruleOfThumbPot,
  next: (assignment, cards) => gramsOf(correctionOf(assignment, learnt(assignment, cards), last(cards))),
};

const ruled: Arm = {
  name: "full loop, first pot by rule of thumb",
  about: "the same with the toners of the pot first",
  firstPot: ruleOfThumbPot,
  next: (assignment, cards) => stayingWithThePot(assignment, learnt(assignment, cards), last(cards)),
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
  about:
    "the first pot by `planHoldBack`; then `learnStrengths` from all cards so far and `correct` with the toners that are in the pot, others only where those do not come near enough",
  firstPot: plannedPot,
};

export const ARMS = { unanchored, anchored, threeQuarters, staying, learning, ruled, full } as const;
