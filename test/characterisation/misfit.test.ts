import { describe, expect, it } from "vitest";
import { BADLY_BEHAVED_SIZES, BELIEF_SIZES, beliefSizesOf } from "../../src/belief/beliefSizes.js";
import { characterise } from "../../src/characterisation/characterise.js";
import { readToners, writeToners } from "../../src/formats/tonersFile.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import { type Drawdown, doubleFilm, drawDown, jobOf } from "./world.js";

/* Films by the textbook formula, with noise: see world.ts. What is checked is the arithmetic of the doubts. */

const THICK = 5;
const film = (recipe: Drawdown["recipe"], thickness = THICK): Drawdown => ({
  recipe,
  thickness,
  backings: [0.05, 0.85],
});
const RECIPES: readonly Drawdown["recipe"][] = [
  { white: 1 },
  { white: 2 },
  { red: 1 },
  { red: 2 },
  { white: 1, red: 1 },
  { white: 4, red: 1 },
  { white: 10, red: 1 },
  { blue: 1 },
  { blue: 2 },
  { white: 1, blue: 1 },
  { white: 6, blue: 1 },
];

/** Samples of films of `RECIPES`; what is said to be in them is off by the factor `slip`, up and down by turns, in `toner`. */
function samples({ thickness = THICK, toner = "red", slip = 1 }) {
  const random = createRandom(7);
  return RECIPES.map((recipe, i) => {
    const mixed = Object.keys(recipe).length > 1 && toner in recipe;
    const truly = mixed ? { ...recipe, [toner]: recipe[toner] * (i % 2 === 0 ? slip : 1 / slip) } : recipe;
    const drawn = drawDown(`film ${i}`, film(truly, thickness), doubleFilm, () => 0.001 * random.normal());
    return { ...drawn, recipe };
  });
}
const OPTIONS = { leaveOneOut: "each sample", reflectanceSd: { floor: 0.001, relative: 0 } } as const;
const tonersOf = (of: Parameters<typeof samples>[0], options: object = OPTIONS) =>
  characterise(jobOf(samples(of), { options })).toners;
const misfits = (of: Parameters<typeof samples>[0]) =>
  Object.fromEntries(tonersOf(of).toners.map(({ id, misfit = Number.NaN }) => [id, misfit]));

describe("the misfit of toners on films that were left out", () => {
  it("is far below 1 where films do as the model says", () => {
    const { misfit, toners } = tonersOf({});
    expect(misfit).toBeLessThan(0.3);
    for (const toner of toners) expect(toner.misfit).toBeLessThan(0.3);
  });

  it("is large where the strength of a toner depends on its company, and largest of that toner", () => {
    const { misfit } = tonersOf({ slip: 2 });
    const { red, blue } = misfits({ slip: 2 });
    expect(misfit).toBeGreaterThan(0.7);
    expect(red).toBeGreaterThan(blue);
  });

  it("does not depend on the strength of the can in use", () => {
    const job = jobOf(samples({ slip: 1.5 }), { options: OPTIONS });
    const weak = job.toners.map((toner) => ({ ...toner, strength: 0.3 }));
    expect(characterise({ ...job, toners: weak }).toners.misfit).toBe(characterise(job).toners.misfit);
  });

  it("is not told where no film hides, and not unless films were left out", () => {
    for (const set of [tonersOf({ thickness: 0.2 }), tonersOf({}, { ...OPTIONS, leaveOneOut: "none" })]) {
      expect(set.misfit).toBeUndefined();
      for (const toner of set.toners) expect(toner).not.toHaveProperty("misfit");
    }
  });

  it("is kept by the toner file", () => {
    const set = tonersOf({ slip: 1.5 });
    expect(readToners(writeToners(set))).toEqual(set);
  });
});

describe("the sizes of a belief", () => {
  it("are as usual until the toner set says that its line is badly behaved", () => {
    for (const set of [{}, { misfit: 0 }, { misfit: 0.69 }]) expect(beliefSizesOf(set)).toEqual(BELIEF_SIZES);
    expect(beliefSizesOf({ misfit: 1 })).toEqual(BADLY_BEHAVED_SIZES);
    expect(beliefSizesOf({ misfit: 1.5 })).toEqual({
      ...BELIEF_SIZES,
      paintCurveSd: 0.08 * 1.5,
      companySd: 0.2 * 1.5,
    });
  });
});
