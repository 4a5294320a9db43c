import { describe, expect, it } from "vitest";
import { beliefOf } from "../../src/belief/belief.js";
import { BELIEF_SIZES, type BeliefSizes, beliefSizesOf } from "../../src/belief/beliefSizes.js";
import { learnRepeats } from "../../src/belief/learnRepeats.js";
import { taughtSizes } from "../../src/belief/taughtSizes.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import { type Grams, gramsInOrder } from "../../src/toners/pot.js";
import { horseboxToners } from "../fixtures/horsebox.js";
import { drawnCards, priorOf } from "./pots.js";

const set = horseboxToners();
const inOrder = (grams: Grams) => gramsInOrder(grams, set.toners);
const POTS = [
  [
    { white: 150, ochre: 14, green: 9 },
    { white: 160, ochre: 15, green: 10 },
    { white: 170, ochre: 15, green: 12 },
  ],
  [
    { white: 60, blue: 20, green: 20 },
    { white: 66, blue: 22, green: 20 },
    { white: 66, blue: 24, green: 21 },
  ],
];

/** What is learnt from pots sprayed by a gun of other sizes; drawn from the belief itself, so it checks the arithmetic. */
function learntFrom(truth: Partial<BeliefSizes>, jobs: number) {
  const random = createRandom(11);
  const world = priorOf(set, truth);
  let repeats = {};
  for (let job = 0; job < jobs; job++) {
    const cards = drawnCards(world, POTS[job % POTS.length].map(inOrder), random);
    repeats = learnRepeats(beliefOf(priorOf(set, taughtSizes({ repeats })), cards), { repeats });
  }
  return taughtSizes({ repeats });
}

describe("learnRepeats", () => {
  it("stays where it is when films repeat as well as is believed", () => {
    const learnt = learntFrom({}, 40);
    for (const size of ["offsetSd", "gainSd"] as const) {
      expect((learnt[size] ?? 0) / BELIEF_SIZES[size]).toBeGreaterThan(0.75);
      expect((learnt[size] ?? 0) / BELIEF_SIZES[size]).toBeLessThan(1.3);
    }
  });

  it("finds a gun that repeats better, and one that repeats worse", () => {
    expect(learntFrom({ offsetSd: 0.0002 }, 40).offsetSd).toBeLessThan(0.00065);
    expect(learntFrom({ offsetSd: 0.004 }, 40).offsetSd).toBeGreaterThan(0.0028);
    expect(learntFrom({ gainSd: 0.012 }, 40).gainSd).toBeGreaterThan(0.008);
  });

  it("moves little on the cards of one pot, and goes into the sizes of every later belief", () => {
    const one = learntFrom({ offsetSd: 0.0001 }, 1);
    expect((one.offsetSd ?? 0) / BELIEF_SIZES.offsetSd).toBeGreaterThan(0.7);
    const learnt = { pots: [], cans: {}, newCan: {}, logStrength: {}, covariance: {} };
    const repeats = { offsetSd: { sd: 0.0004, films: 12 } };
    expect(beliefSizesOf({ learnt: { ...learnt, repeats } })).toEqual({ ...BELIEF_SIZES, offsetSd: 0.0004 });
  });
});
