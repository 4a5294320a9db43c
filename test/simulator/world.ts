import { characterise } from "../../src/characterisation/characterise.js";
import { createRandom, type Random } from "../../src/numeric/probability/random.js";
import type { Reading } from "../../src/surface/reading.js";
import type { Grams } from "../../src/toners/pot.js";
import type { TonerSet } from "../../src/toners/tonerSet.js";
import { drawdownJob, GEOMETRY } from "./drawdowns.js";
import { drawFormula, type Group } from "./formulas.js";
import { createInstrument } from "./instrument.js";
import { createPaintReader, type Film, PAINT_PHYSICS, type Paint, type PaintPhysics } from "./paint.js";
import { GRID, IDS, PIGMENTS } from "./pigments.js";

/** How the shop errs. Noise and pouring are factors on their usual size: 0 takes them away. */
export interface WorldOptions {
  readonly physics: PaintPhysics;
  /** Sd of ln strength of every can, against the can that was characterised. */
  readonly strengthSd: number;
  /** Of instrument. */
  readonly noise: number;
  /** Of the gun: film build (sd of ln depth 0.1), gloss and texture of a card. */
  readonly gun: number;
  /** Of the hand: how far a pour ends from what was asked (sd 0.03 g + 0.2 %); the scale rounds what it shows. */
  readonly pouring: number;
  readonly scaleStepGrams: number;
}

export const WORLD_DEFAULTS: WorldOptions = Object.freeze({
  physics: PAINT_PHYSICS,
  strengthSd: 0.2,
  noise: 1,
  gun: 1,
  pouring: 1,
  scaleStepGrams: 0.1,
});

/** Films are sprayed to hiding over a primer of middle shade; white then still shows a trace of it. */
const SPRAYED: Film = { depth: 24, backing: 0.4 };
const FILM_BUILD_SD = 0.1;
const CARD_SHEEN_SD = 0.0006;
const CARD_TONE_SD = 0.0025;

/** A panel of the car: what the sun has left of its paint, truly and as read. */
export interface Panel {
  readonly left: Grams;
  readonly yellowing: number;
  /** Without any error of the instrument. */
  readonly reflectance: readonly number[];
  readonly reading: Reading;
}

/** A pot as weighed (what masstone hears of) and as it is. */
export interface SimulatedPot {
  readonly shown: Grams;
  readonly poured: Grams;
}

/** One shop on one day: its cans, its scale, gun and instrument. Every call of what errs errs anew. */
export interface World {
  /** As masstone knows them: characterised from drawdowns of cans at full strength. */
  readonly toners: TonerSet;
  /** Strength of the cans in use, by toner id; truth that masstone does not see. */
  readonly cans: Grams;
  readonly random: Random;
  formula(group: Group, grams: number): Grams;
  /** The panel's paint was mixed from cans at full strength; `fade` 0–1 is what the most fugitive toner lost. */
  panel(formula: Grams, fade: number): Panel;
  /** Pours what was asked into a pot, or into an empty cup. */
  pour(asked: Grams, into?: SimulatedPot): SimulatedPot;
  /** A card sprayed from the pot, as read. */
  card(pot: SimulatedPot): Reading;
  /** The same in two steps: a card, and what the instrument makes of one, of a panel too, each time it is read. */
  spray(pot: SimulatedPot): readonly number[];
  read(reflectance: readonly number[]): Reading;
  /** What the pot is truly worth: sprayed at the usual film build and read without error. */
  truth(poured: Grams): readonly number[];
}

/** The toners of the simulated world as `characterise` finds them; takes a few seconds, so make them once. */
export function knownToners(seed = 1, physics: PaintPhysics = PAINT_PHYSICS): TonerSet {
  return characterise(drawdownJob(seed, physics)).toners;
}

export function createWorld(seed: number, toners: TonerSet, options: Partial<WorldOptions> = {}): World {
  const { physics, strengthSd, noise, gun, pouring, scaleStepGrams } = { ...WORLD_DEFAULTS, ...options };
  const random = createRandom(seed);
  const readPaint = createPaintReader(physics);
  const instrument = createInstrument(random, noise);
  const cans = Object.fromEntries(IDS.map((id) => [id, Math.exp(strengthSd * random.normal())]));
  const reading = (reflectance: readonly number[]): Reading => ({
    geometry: GEOMETRY,
    grid: GRID,
    reflectance: instrument.read(reflectance),
  });
  const sprayed = (paint: Paint) =>
    readPaint(paint, { ...SPRAYED, depth: SPRAYED.depth * Math.exp(gun * FILM_BUILD_SD * random.normal()) });

  const spray = ({ poured }: SimulatedPot) => {
    const sheen = gun * CARD_SHEEN_SD * random.normal();
    const tone = gun * CARD_TONE_SD * random.normal();
    const reflectance = sprayed({ grams: poured, strengths: cans });
    return reflectance.map((value) => value * (1 + tone) + sheen);
  };

  return {
    toners,
    cans,
    random,
    formula: (group, grams) => drawFormula(group, random, grams),
    panel: (formula, fade) => {
      const left = Object.fromEntries(
        PIGMENTS.map(({ id, fugitive }) => [id, 1 - fade * fugitive * (0.7 + 0.3 * random.uniform())]),
      );
      const yellowing = 0.006 * fade * random.uniform();
      const reflectance = sprayed({ grams: formula, left, yellowing });
      return { left, yellowing, reflectance, reading: reading(reflectance) };
    },
    pour: (asked, into = { shown: {}, poured: {} }) => {
      const shown: Record<string, number> = { ...into.shown };
      const poured: Record<string, number> = { ...into.poured };
      for (const [id, grams] of Object.entries(asked)) {
        if (!(grams > 0)) continue;
        const sd = pouring * (0.03 + 0.002 * grams);
        const truly = Math.max(0, grams + sd * random.normal());
        const weighed = scaleStepGrams > 0 ? Math.round(truly / scaleStepGrams) * scaleStepGrams : truly;
        shown[id] = Number(((shown[id] ?? 0) + (pouring > 0 ? weighed : grams)).toPrecision(12));
        poured[id] = (poured[id] ?? 0) + truly;
      }
      return { shown, poured };
    },
    card: (pot) => reading(spray(pot)),
    spray,
    read: reading,
    truth: (poured) => readPaint({ grams: poured, strengths: cans }, SPRAYED),
  };
}
