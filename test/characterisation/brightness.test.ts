import { describe, expect, it } from "vitest";
import { characterise } from "../../src/characterisation/characterise.js";
import { predict } from "../../src/prediction/predict.js";
import { THREE_ANGLES } from "../fixtures/threeAngles.js";

const { grid, toners } = THREE_ANGLES;
const viewing = { observer: "1964-10", illuminants: [{ name: "D65" }] } as const;
const surfaces = THREE_ANGLES.surfaces.map(({ brightness: _, ...surface }) => surface);
const ladder = (first: string, second: string) =>
  [1, 0.8, 0.5].map((share) => ({ [first]: share, ...(share < 1 && { [second]: 1 - share }) }));
const sampleOf = (recipe: Readonly<Record<string, number>>) => ({
  name: JSON.stringify(recipe),
  recipe,
  readings: predict({ toners: THREE_ANGLES, viewing, pot: recipe }).readings.map(
    ({ geometry, reflectance }) => ({ geometry, grid, reflectance }),
  ),
});
const found = (recipes: readonly Readonly<Record<string, number>>[], of: readonly string[]) =>
  characterise({
    grid,
    surfaces,
    toners: toners
      .filter(({ id }) => of.includes(id))
      .map(({ id, role }) => ({ id, role: role ?? "chromatic" })),
    samples: recipes.map(sampleOf),
  }).toners;

describe("brightness of a geometry", () => {
  const withFlake = ladder("silver", "black");
  const set = found(withFlake, ["silver", "black"]);

  it("is 1.3 times the brightest band of a film with flake, where that is above 0.8", () => {
    const brightest = Math.max(
      ...withFlake.flatMap((recipe) => Array.from(sampleOf(recipe).readings[0].reflectance)),
    );
    expect(brightest).toBeGreaterThan(1);
    expect(set.surfaces.map(({ brightness }) => brightness)).toEqual([1.3 * brightest, undefined, undefined]);
  });

  it("lets films be predicted that no white is as bright as", () => {
    const pot = { silver: 0.9, black: 0.1 };
    const truth = predict({ toners: THREE_ANGLES, viewing, pot }).predictions;
    predict({ toners: set, viewing, pot }).predictions.forEach(({ lab }, i) => {
      lab.forEach((value, axis) => {
        expect(Math.abs(value - truth[i].lab[axis])).toBeLessThan(1.5);
      });
    });
  });

  it("is left alone without flake, and where the job has it", () => {
    expect(found(ladder("white", "black"), ["white", "black"]).surfaces).toEqual(surfaces);
  });
});
