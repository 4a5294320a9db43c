import { describe, expect, it } from "vitest";
import { predict } from "../../src/prediction/predict.js";
import { GROUPS } from "./formulas.js";
import { createWorld, knownToners } from "./world.js";

const toners = knownToners();
const silent = { noise: 0, gun: 0, pouring: 0 };
const largest = (values: readonly number[]) => Math.max(...values.map(Math.abs));

describe("the simulated world", () => {
  it("comes out the same for a seed, and otherwise for another", () => {
    const cardOf = (seed: number) => {
      const world = createWorld(seed, toners);
      return world.card(world.pour(world.formula("mid", 200))).reflectance;
    };
    expect(cardOf(3)).toEqual(cardOf(3));
    expect(cardOf(3)).not.toEqual(cardOf(4));
  });

  it("a card without noise is the truth of the pot; with noise it is near it, and never the same twice", () => {
    for (const group of GROUPS) {
      const quiet = createWorld(5, toners, silent);
      const pot = quiet.pour(quiet.formula(group, 200));
      expect(pot.shown).toEqual(pot.poured);
      expect(quiet.card(pot).reflectance).toEqual(quiet.truth(pot.poured));

      const noisy = createWorld(5, toners);
      const [one, two] = [noisy.card(pot), noisy.card(pot)].map(({ reflectance }) => reflectance);
      const off = largest(noisy.truth(pot.poured).map((value, band) => value - one[band]));
      expect(off).toBeGreaterThan(1e-5);
      expect(off).toBeLessThan(0.03);
      expect(one).not.toEqual(two);
    }
  });

  it("a scale shows whole steps, near to what was poured", () => {
    const world = createWorld(6, toners);
    const { shown, poured } = world.pour({ white: 50 }, world.pour({ white: 100, blue: 0.5 }));
    expect(Object.values(shown).every((grams) => Math.abs(grams * 10 - Math.round(grams * 10)) < 1e-9)).toBe(
      true,
    );
    expect(Math.abs(shown.white - poured.white)).toBeLessThan(0.11);
    expect(shown.white).not.toBe(poured.white);
  });

  it("cans scatter as stated: sd of ln strength 0.2", () => {
    const logs = Array.from({ length: 60 }, (_, seed) =>
      Object.values(createWorld(seed, toners).cans),
    ).flat();
    const sd = Math.sqrt(logs.reduce((sum, strength) => sum + Math.log(strength) ** 2, 0) / logs.length);
    expect(sd).toBeGreaterThan(0.18);
    expect(sd).toBeLessThan(0.22);
  });

  it("is not the package's own physics: true cans without any noise are missed, but by little", () => {
    const missed = GROUPS.map((group, i) => {
      const world = createWorld(10 + i, toners, { ...silent, strengthSd: 0 });
      const pot = world.formula(group, 200);
      const viewing = { observer: "1964-10", illuminants: [{ name: "D65" }] } as const;
      const { reflectance } = predict({ toners, viewing, pot }).readings[0];
      return largest(world.truth(pot).map((value, band) => value - reflectance[band]));
    });
    expect(Math.min(...missed)).toBeGreaterThan(0.001);
    expect(Math.max(...missed)).toBeLessThan(0.05);
  });

  it("a panel that did not fade is the formula; fade moves it", () => {
    const world = createWorld(7, toners, { ...silent, strengthSd: 0 });
    const formula = { white: 80, yellow: 15, red: 5 };
    expect(world.panel(formula, 0).reflectance).toEqual(world.truth(formula));
    const faded = world.panel(formula, 0.3);
    expect(faded.left.yellow).toBeLessThan(0.8);
    expect(faded.left.white).toBe(1);
    expect(
      largest(world.truth(formula).map((value, band) => value - faded.reflectance[band])),
    ).toBeGreaterThan(0.01);
  });
});
