import { describe, expect, it } from "vitest";
import { beliefOf } from "../../src/belief/belief.js";
import type { Fault } from "../../src/belief/fault.js";
import { judge } from "../../src/belief/judge.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import { alignReadings } from "../../src/scene/alignReadings.js";
import { type Grams, gramsInOrder } from "../../src/toners/pot.js";
import { createWorld, knownToners } from "../simulator/world.js";
import { priorOf } from "./pots.js";

const toners = knownToners();
const prior = priorOf(toners);
const { geometries } = prior.model;
const groups = ["light", "mid", "dark"] as const;

/** A shop with other physics than the model's, and the first card of a formula that was mixed there. */
function shop(seed: number) {
  const world = createWorld(seed, toners);
  const pot = world.pour(world.formula(groups[seed % 3], 200));
  const reflectance = alignReadings([world.card(pot)], geometries, toners.grid, "card");
  const judged = (noted: Grams, read = reflectance) => {
    const grams = gramsInOrder(noted, toners.toners);
    return judge(beliefOf(prior, [{ grams, reflectance: read }]), { poured: grams, others: [] });
  };
  return { pot: pot.shown, reflectance, judged };
}
const seeds = Array.from({ length: 30 }, (_, i) => 7000 + i);

describe("judge", () => {
  it("believes cards that come from their pots: no more than 2 of 30 are doubted", () => {
    const doubted = seeds.filter((seed) => {
      const { pot, judged } = shop(seed);
      return judged(pot).verdict === "doubted";
    });
    expect(doubted.length).toBeLessThanOrEqual(2);
  });

  it("refuses pots of which the largest tinter was noted tenfold, and names it: at least 27 of 30", () => {
    const named = seeds.filter((seed) => {
      const { pot, judged } = shop(seed);
      const [slipped] = Object.keys(pot)
        .filter((id) => id !== "white")
        .sort((a, b) => pot[b] - pot[a]);
      const { verdict, logOdds, explanations } = judged({ ...pot, [slipped]: 10 * pot[slipped] });
      if (verdict === "believed") return false;
      expect(logOdds).toBeGreaterThan(0);
      const toner = ({ fault }: { fault: Fault }) => ("toner" in fault ? fault.toner : "");
      return explanations.slice(0, 3).some((one) => toner(one) === slipped);
    });
    expect(named.length).toBeGreaterThanOrEqual(27);
  });

  it("tells what was found in numbers that agree with each other", () => {
    const { pot, judged } = shop(7001);
    const random = createRandom(1);
    for (const factor of [1, 1.5, 10]) {
      const [first] = Object.keys(pot).filter((id) => id !== "white");
      const { verdict, soundProbability, logOdds, chiSquare, tail, explanations } = judged({
        ...pot,
        [first]: factor * pot[first] + 0.01 * random.uniform(),
      });
      const all = explanations.reduce((sum, { probability }) => sum + probability, soundProbability);
      expect(all).toBeLessThanOrEqual(1 + 1e-9);
      expect(chiSquare).toBeGreaterThanOrEqual(0);
      expect(tail).toBeGreaterThanOrEqual(0);
      expect(tail).toBeLessThanOrEqual(1);
      if (logOdds > 0) expect(soundProbability).toBeLessThan(0.5);
      expect(verdict === "believed").toBe(logOdds <= 0 && tail >= 0.001);
      explanations.forEach(({ probability }, i) => {
        if (i > 0) expect(probability).toBeLessThanOrEqual(explanations[i - 1].probability);
      });
    }
  });

  it("names one bad band, and a reading that is off at all wavelengths", () => {
    const { pot, reflectance, judged } = shop(7004);
    const spiked = reflectance.map((r, b) => (b === 12 ? r + 0.08 : r));
    expect(judged(pot, spiked).explanations[0].fault).toMatchObject({ kind: "spike", wavelength: 520 });
    expect(judged(pot, spiked).verdict).toBe("doubted");
    const lifted = judged(
      pot,
      reflectance.map((r) => r + 0.06),
    );
    expect(lifted.verdict).toBe("doubted");
  });
});
