import {
  correct,
  type Grams,
  type Job,
  type Reading,
  TOLERANCE_DEFAULTS,
  type TonerSet,
} from "../../src/doors/index.js";
import { adviseNextStep, STEP_PRICES, type Step } from "../../src/doors/planning.js";
import { GROUPS, type Group } from "../simulator/formulas.js";
import { createWorld, type SimulatedPot } from "../simulator/world.js";
import { deltaE00, VIEWING } from "./trueColour.js";

/** What to do about a card. */
export interface Decision {
  readonly step: Step;
  readonly grams?: Grams;
  /** To pour off before that. */
  readonly gramsOff?: number;
}

/** When to stop: from the job with all its cards, and how often the last one was read. */
export interface StopRule {
  readonly name: string;
  decide(job: Job, readings: number): Decision;
}

const QUICK = { alternatives: false, wayOut: false } as const;
const FORECAST = { draws: 200, drawsOfReturn: 20 } as const;

/** What `adviseNextStep` says, at its default prices. */
export const advised: StopRule = {
  name: "advice",
  decide: (job, readings) => {
    const correction = correct(job, { ...QUICK, wayOut: true, forecast: FORECAST });
    const { step, grams, gramsOff } = adviseNextStep(job, correction, { forecast: FORECAST, readings });
    return { step, ...(grams && { grams }), ...(gramsOff && { gramsOff }) };
  },
};

/** Pours, whatever it costs, until a card reads within `most` of the panel. */
export function untilItReads(most: number): StopRule {
  return {
    name: `until it reads ${most}`,
    decide: (job) => {
      const { additions } = correct({ ...job, tolerance: { edgeDeltaE00: most } }, QUICK);
      const grams = Object.fromEntries(additions.map(({ toner, grams: amount }) => [toner, amount]));
      return additions.length > 0 ? { step: "pour", grams } : { step: "good-enough" };
    },
  };
}

/** What became of a job. */
export interface Stopped {
  readonly group: Group;
  /** Every step, and true ΔE00 of the pot from the panel when it was taken. */
  readonly steps: readonly { readonly step: Step; readonly deltaE00: number }[];
  /** At the end. */
  readonly deltaE00: number;
  /** Minutes of `STEP_PRICES`, with what would have to be done again by how far off the panel truly is. */
  readonly cost: number;
}

const WANTED_GRAMS = 200;
const HARDEST_FADE = 0.3;
const MOST_STEPS = 9;

/** Job number `seed` as in `runJob`, from a pot held back by rule of thumb, until the rule says stop. */
export function runStops(seed: number, toners: TonerSet, rule: StopRule, firstPot: FirstPot): Stopped {
  const group = GROUPS[seed % GROUPS.length];
  const world = createWorld(seed, toners);
  const formula = world.formula(group, WANTED_GRAMS);
  const panel = world.panel(formula, HARDEST_FADE * world.random.uniform());
  let pot = world.pour(firstPot({ formula }));
  let sprayed = world.spray(pot);
  let readings = [world.read(sprayed)];
  let panels = [panel.reading];
  let cost = STEP_PRICES.card;
  let cards: readonly { readonly pot: Grams; readonly card: Reading }[] = [];
  const steps: { readonly step: Step; readonly deltaE00: number }[] = [];
  const fromPanel = () => deltaE00(panel.reflectance, world.truth(pot.poured));
  for (;;) {
    const card = meanOf(readings);
    const job: Job = {
      toners,
      viewing: VIEWING,
      pot: pot.shown,
      cards: [...cards, { pot: pot.shown, card }].map((one) => ({ pot: one.pot, readings: [one.card] })),
      targets: [{ name: "panel", readings: [meanOf(panels)] }],
      limits: { potMaxGrams: 2 * WANTED_GRAMS },
    };
    const decision = rule.decide(job, readings.length);
    const { step, grams = {}, gramsOff = 0 } = decision;
    steps.push({ step, deltaE00: fromPanel() });
    cost += priceOf(step, total(grams) + gramsOff);
    const isOver = step === "good-enough" || step === "blend" || step === "new-pot";
    if (isOver || steps.length === MOST_STEPS) break;
    if (step === "re-measure") {
      readings = [...readings, world.read(sprayed)];
      panels = [...panels, world.read(panel.reflectance)];
      continue;
    }
    // A part of the pot is the same paint: its cards count as cards of as much less.
    const kept = 1 - gramsOff / total(pot.shown);
    cards = [...cards, { pot: pot.shown, card }].map((one) => ({ ...one, pot: scaled(one.pot, kept) }));
    pot = world.pour(grams, { shown: scaled(pot.shown, kept), poured: scaled(pot.poured, kept) });
    sprayed = world.spray(pot);
    readings = [world.read(sprayed)];
  }
  const last = steps[steps.length - 1].step;
  const { edgeDeltaE00, blendDeltaE00 } = TOLERANCE_DEFAULTS;
  const allowed = last === "blend" ? blendDeltaE00 : edgeDeltaE00;
  const again = last === "new-pot" ? newPot(pot) : STEP_PRICES.redo * seen(fromPanel() / allowed);
  return { group, steps, deltaE00: fromPanel(), cost: cost + again };
}

/** The grams of the first pot. */
export type FirstPot = (assignment: { readonly formula: Grams }) => Grams;

const total = (grams: Grams) => Object.values(grams).reduce((sum, amount) => sum + amount, 0);

const scaled = (grams: Grams, factor: number): Grams =>
  Object.fromEntries(Object.entries(grams).map(([id, amount]) => [id, factor * amount]));

/** A new pot is dealt with at the end. */
function priceOf(step: Step, grams: number): number {
  const { card, reading, blend, gram } = STEP_PRICES;
  const prices: Readonly<Record<Step, number>> = {
    "good-enough": 0,
    blend,
    pour: card + gram * grams,
    "pour-off": card + gram * grams,
    "re-measure": reading,
    compare: 0,
    respray: card,
    "other-flake": 0,
    "new-pot": 0,
  };
  return prices[step];
}

/** The old one thrown away, the new one mixed, two cards of it. */
const newPot = ({ shown }: SimulatedPot) =>
  STEP_PRICES.newPot + STEP_PRICES.gram * total(shown) + 2 * STEP_PRICES.card;

/** How likely a mismatch is seen: within tolerance never, at twice the tolerance always. */
const seen = (ratio: number) => Math.min(1, Math.max(0, ratio - 1));

function meanOf(readings: readonly Reading[]): Reading {
  const reflectance = Array.from(
    readings[0].reflectance,
    (_, b) => readings.reduce((sum, one) => sum + one.reflectance[b], 0) / readings.length,
  );
  return { ...readings[0], reflectance };
}
