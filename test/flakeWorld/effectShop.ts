import type { CharacterisationJob } from "../../src/characterisation/job.js";
import type { Sample, SprayedAs } from "../../src/characterisation/sample.js";
import type { Random } from "../../src/numeric/probability/random.js";
import type { Reading } from "../../src/surface/reading.js";
import { surfaceFromIndex } from "../../src/surface/surface.js";
import type { Grams } from "../../src/toners/pot.js";
import { createInstrument, type Instrument } from "../simulator/instrument.js";
import { GRID } from "../simulator/pigments.js";
import { ANGLES, type Angle } from "./directions.js";
import type { EffectPaint, Factors, Sprayed } from "./effectPaint.js";
import { EFFECT_TONERS } from "./effectToners.js";

type Reader = (paint: EffectPaint, sprayed: Sprayed) => Factors;

/** What the instrument says of a film, at some of its angles. */
export function readAngles(
  factors: Factors,
  instrument: Instrument,
  angles: readonly Angle[] = ANGLES,
): readonly Reading[] {
  return angles.map((geometry) => ({
    geometry,
    grid: GRID,
    reflectance: instrument.read(factors[geometry]),
  }));
}

/** How far the ladder's gun repeats, and how far apart "flatter" and "steeper" truly are: no user knows that. */
const GUN_SD = 0.02;
const TURNS = [-0.2, -0.1, 0.1, 0.2] as const;

interface LadderFilm {
  readonly recipe: Grams;
  readonly spray: SprayedAs;
  readonly tilt: number;
}

/** Masstone and let-downs with black of every effect toner, each pigment with white and in silver; dark ones sprayed four ways more. */
export function ladderFilms(): readonly LadderFilm[] {
  const as = (recipe: Grams, spray: SprayedAs = "as the ladder", tilt = 0): LadderFilm => ({
    recipe,
    spray,
    tilt,
  });
  const effects = EFFECT_TONERS.filter(({ grade }) => grade).map(({ id }) => id);
  const colours = EFFECT_TONERS.filter(({ role }) => role === "chromatic").map(({ id }) => id);
  return [
    ...effects.flatMap((id) => [
      as({ [id]: 100 }),
      as({ [id]: 95, black: 5 }),
      as({ [id]: 85, black: 15 }),
      as({ [id]: 70, black: 30 }),
      as({ [id]: 90, white: 10 }),
      ...TURNS.map((tilt) => as({ [id]: 70, black: 30 }, tilt < 0 ? "flatter" : "steeper", tilt)),
    ]),
    as({ "coarse-silver": 50, "fine-silver": 50 }),
    as({ white: 100 }),
    as({ white: 97, black: 3 }),
    as({ black: 100 }),
    ...colours.flatMap((id) => [
      as({ "coarse-silver": 85, [id]: 15 }),
      as({ "coarse-silver": 60, [id]: 40 }),
      as({ "fine-silver": 80, [id]: 20 }),
      as({ white: 70, [id]: 30 }),
      as({ "blue-pearl": 60, [id]: 25, black: 15 }),
    ]),
  ];
}

/** The ladder of one shop, sprayed and read: what `characterise` is given. */
export function characterisationJob(read: Reader, random: Random): CharacterisationJob {
  const instrument = createInstrument(random);
  const samples = ladderFilms().map(({ recipe, spray, tilt }, i): Sample => {
    const sprayed = { tilt: tilt + GUN_SD * random.normal() };
    return {
      name: `film ${i + 1}`,
      recipe,
      spray,
      readings: readAngles(read({ grams: recipe }, sprayed), instrument),
    };
  });
  return {
    grid: GRID,
    surfaces: ANGLES.map((geometry) => surfaceFromIndex(geometry, 1.5)),
    toners: EFFECT_TONERS.map(({ id, role }) => ({ id, role })),
    samples,
    reference: "coarse-silver",
  };
}
