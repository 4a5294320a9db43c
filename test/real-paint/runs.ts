import type { Correction } from "../../src/correction/correction.js";
import type { CorrectOptions } from "../../src/correction/correctOptions.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import type { Grams } from "../../src/toners/pot.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";
import type { OneCardJob } from "../fixtures/horsebox.js";
import type { Film, OpenData } from "./openData.js";
import { nearestTo, targetsOf } from "./targets.js";
import { textbookDeltaE00, textbookReflectance } from "./textbook.js";

type Correct = (job: OneCardJob, options?: CorrectOptions) => Correction;

/** One measured target approached from one wrong pot. */
export interface Run {
  readonly target: Film;
  readonly job: OneCardJob;
  readonly card: readonly number[];
  readonly correction: Correction;
  /** ΔE00 under D65 as the cans really are, the card's noise left out. */
  readonly really: { readonly before: number; readonly after: number };
}

/** The wrong pots: of another colour altogether, and of the target next to it. */
export const STARTS = ["grey ochre", "neighbour"] as const;

const VIEWING = { observer: "1964-10", illuminants: [{ name: "D65" }, { name: "A", weight: 0.3 }] } as const;

const GREY_OCHRE: Grams = { TitaniumWhite: 60, BoneBlack: 20, HansaYellowOpaque: 10, PyrroleRed: 2 };

/** How far the cans are off, either way, and how the card is read. */
export const WORLD = Object.freeze({ strengthSpread: 0.15, noiseSd: 0.001, seed: 1 });

/**
 * Corrects towards every target from the two kinds of pot, with the default limits. There is no measured card in
 * these toners, so each is made: the pot's reflectance by the model itself, but with every can stronger or weaker
 * than said and with noise on the reading.
 */
export function runAll(
  { toners, films }: OpenData,
  correct: Correct,
  start: (typeof STARTS)[number],
): readonly Run[] {
  const targets = targetsOf({ toners, films });
  return targets.map((target, i) => {
    const pot = start === "neighbour" ? formulate(toners, nearestTo(target, targets), correct) : GREY_OCHRE;
    return runOne(toners, target, pot, correct, WORLD.seed + i);
  });
}

function runOne(toners: TonerSet, target: Film, pot: Grams, correct: Correct, seed: number): Run {
  const { grid, overWhite } = target;
  const random = createRandom(seed);
  const off = () => 1 + WORLD.strengthSpread * (2 * random.uniform() - 1);
  const cans = { ...toners, toners: toners.toners.map((toner) => ({ ...toner, strength: off() })) };
  const card = textbookReflectance(cans, grid, pot).map((r) => r + WORLD.noiseSd * random.normal());
  const job = jobFor(toners, target, pot, card);
  const correction = correct(job);
  const really = (grams: Grams) =>
    textbookDeltaE00(overWhite, textbookReflectance(cans, grid, grams), grid, "D65");
  return {
    target,
    job,
    card,
    correction,
    really: { before: really(pot), after: really(correction.potAfter) },
  };
}

/** A pot of 100 g of what `correct` makes of a speck of white: the colour's formula in these toners. */
function formulate(toners: TonerSet, target: Film, correct: Correct): Grams {
  const speck = { TitaniumWhite: 0.5 };
  const job = jobFor(toners, target, speck, textbookReflectance(toners, target.grid, speck));
  const { potAfter, potGramsAfter } = correct({ ...job, limits: { potMaxGrams: 100 } });
  return Object.fromEntries(
    Object.entries(potAfter).map(([id, grams]) => [id, Number(((100 * grams) / potGramsAfter).toFixed(1))]),
  );
}

/** The job of one target on the same grid as the card, at the default limits and tolerance. */
export function jobFor(
  toners: TonerSet,
  target: Pick<Film, "sample" | "grid" | "overWhite">,
  pot: Grams,
  card: readonly number[],
): OneCardJob {
  const reading = (reflectance: readonly number[]) => ({
    geometry: "d:8 specular excluded" as const,
    grid: target.grid,
    reflectance,
  });
  return {
    toners,
    viewing: VIEWING,
    pot,
    card: { readings: [reading(card)] },
    targets: [{ name: target.sample, readings: [reading(target.overWhite)] }],
  };
}
