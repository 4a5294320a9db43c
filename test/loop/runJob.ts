import { topUp } from "../../src/planning/holdBack/topUp.js";
import type { Reading } from "../../src/surface/reading.js";
import type { Grams } from "../../src/toners/pot.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";
import { GROUPS, type Group } from "../simulator/formulas.js";
import { createWorld, type Panel, type WorldOptions } from "../simulator/world.js";
import { deltaE00 } from "./trueColour.js";

/** What a painter knows of a job before the first card. */
export interface Assignment {
  readonly toners: TonerSet;
  readonly formula: Grams;
  readonly wantedGrams: number;
  readonly panel: Reading;
  /** For an oracle's eyes only. */
  readonly truth: {
    /** Strength of the cans in use. */
    readonly cans: Grams;
    /** Reflectance of a pot without any error of card or instrument. */
    readonly reflectance: (poured: Grams) => readonly number[];
  };
}

/** A card and the pot it was sprayed from, as the scale showed it. */
export interface SprayedCard {
  readonly pot: Grams;
  readonly card: Reading;
  /** What was truly poured: for an oracle's eyes only. */
  readonly poured: Grams;
}

/**
 * A way of working. `next` gets all cards so far, the last one last, and says what to pour; nothing is "stop". A card that is
 * not believed is followed by another from the same pot; a second one that is not believed ends the job.
 */
export interface Arm {
  readonly name: string;
  /** What it does, in words. */
  readonly about: string;
  firstPot(assignment: Assignment): Grams;
  next(assignment: Assignment, cards: readonly SprayedCard[]): Grams | "not believed";
}

/** What became of a job. */
export interface Outcome {
  readonly group: Group;
  /** True ΔE00 of the panel from the paint it was made of: how far it had faded. */
  readonly fadeDeltaE00: number;
  /** True ΔE00 from the panel of the first pot, after one correction, after two, …; the last one holds on. */
  readonly deltaE00: readonly number[];
  /** Cards sprayed until the arm stopped. */
  readonly cards: number;
  readonly potGrams: number;
  readonly wantedGrams: number;
  /** ΔE00 between what is and what was read, of the panel and of the first card. */
  readonly readingDeltaE00: { readonly panel: number; readonly card: number };
}

export const WANTED_GRAMS = 200;
const HARDEST_FADE = 0.3;
export const MOST_CORRECTIONS = 5;

/** Job number `seed` of the simulated world, done one way. The panel and the cans are the same for every arm. */
export function runJob(
  seed: number,
  toners: TonerSet,
  arm: Arm,
  options: Partial<WorldOptions> = {},
): Outcome {
  const group = GROUPS[seed % GROUPS.length];
  const world = createWorld(seed, toners, options);
  const formula = world.formula(group, WANTED_GRAMS);
  const fresh = world.panel(formula, 0);
  const panel: Panel = world.panel(formula, HARDEST_FADE * world.random.uniform());
  const assignment: Assignment = {
    toners,
    formula,
    wantedGrams: WANTED_GRAMS,
    panel: panel.reading,
    truth: { cans: world.cans, reflectance: world.truth },
  };
  const fromPanel = (poured: Grams) => deltaE00(panel.reflectance, world.truth(poured));

  let pot = world.pour(arm.firstPot(assignment));
  const first = world.truth(pot.poured);
  const differences = [fromPanel(pot.poured)];
  const cards: SprayedCard[] = [];
  const askedOfCard = () => {
    cards.push({ pot: pot.shown, card: world.card(pot), poured: pot.poured });
    return differences.length > MOST_CORRECTIONS ? {} : arm.next(assignment, cards);
  };
  const askedOf = (): Grams => {
    const asked = askedOfCard();
    if (asked !== "not believed") return asked;
    const still = askedOfCard();
    return still === "not believed" ? {} : still;
  };
  while (differences.length <= MOST_CORRECTIONS + 1) {
    const asked = askedOf();
    const pours = filledUp(pot.shown, asked);
    if (isNothing(pours)) break;
    pot = world.pour(pours, pot);
    differences.push(fromPanel(pot.poured));
    if (isNothing(asked)) break;
  }
  return {
    group,
    fadeDeltaE00: deltaE00(fresh.reflectance, panel.reflectance),
    deltaE00: differences,
    cards: cards.length,
    potGrams: Object.values(pot.poured).reduce((sum, grams) => sum + grams, 0),
    wantedGrams: WANTED_GRAMS,
    readingDeltaE00: {
      panel: deltaE00(panel.reflectance, panel.reading.reflectance),
      card: deltaE00(first, cards[0].card.reflectance),
    },
  };
}

/** So much of the paint wanted counts as all of it. */
const ENOUGH = 0.98;

/** What is asked, and what is then missing to the paint wanted. */
function filledUp(pot: Grams, asked: Grams): Grams {
  const mixed = sumOf(pot, asked);
  const total = Object.values(mixed).reduce((sum, grams) => sum + grams, 0);
  return total < ENOUGH * WANTED_GRAMS ? sumOf(asked, topUp(mixed, { wantedGrams: WANTED_GRAMS })) : asked;
}

function sumOf(pot: Grams, more: Grams): Grams {
  const ids = [...new Set([...Object.keys(pot), ...Object.keys(more)])];
  return Object.fromEntries(ids.map((id) => [id, (pot[id] ?? 0) + (more[id] ?? 0)]));
}

const isNothing = (pours: Grams): boolean => !Object.values(pours).some((grams) => grams > 0);

/** True ΔE00 after so many corrections, or when the arm had stopped before. */
export const afterCorrections = ({ deltaE00 }: Outcome, count: number): number =>
  deltaE00[Math.min(count, deltaE00.length - 1)];
