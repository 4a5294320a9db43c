import { describe, expect, it } from "vitest";
import { characterise } from "../../src/characterisation/characterise.js";
import { readToners, writeToners } from "../../src/formats/tonersFile.js";
import { createRandom } from "../../src/numeric/probability/random.js";
import { type Drawdown, doubleFilm, drawDown, jobOf } from "./world.js";

/* Films by the textbook formula, with noise: see world.ts. */

const CHART = [0.05, 0.85];
const film = (recipe: Drawdown["recipe"], thickness = 0.5): Drawdown => ({
  recipe,
  thickness,
  backings: CHART,
});
const opaque = (recipe: Drawdown["recipe"]): Drawdown => ({ recipe, thickness: 1, backings: "opaque" });
const noisy = (drawdowns: readonly Drawdown[], sd = 0.002) => {
  const random = createRandom(7);
  return drawdowns.map((d, i) => drawDown(`film ${i}`, d, doubleFilm, () => sd * random.normal()));
};
const LADDER = [
  film({ white: 1 }),
  film({ white: 1 }, 0.25),
  film({ red: 1 }),
  film({ white: 1, red: 1 }),
  film({ white: 4, red: 1 }),
  film({ white: 10, red: 1 }),
  film({ blue: 1 }),
  film({ white: 1, blue: 1 }),
  film({ white: 6, blue: 1 }),
];

describe("what a characterisation says of itself", () => {
  it("residuals of every sample, with the noise found from them", () => {
    const found = characterise(
      jobOf(noisy(LADDER), { options: { reflectanceSd: { floor: 0.001, relative: 0 } } }),
    );
    expect(found.samples).toHaveLength(LADDER.length);
    expect(found.samples.every(({ outlier }) => outlier === undefined)).toBe(true);
    expect(found.noiseScale).toBeGreaterThan(1.5);
    expect(found.noiseScale).toBeLessThan(2.5);
    expect(found.rank).toBe(found.unknowns);
  });

  it("names the sample that was weighed wrongly, and uses it all the same", () => {
    const steps = [1, 2, 3, 6, 9, 15].map((white) => film({ white, red: 1 }));
    const samples = noisy([...LADDER, ...steps], 0.001).map((sample, i) =>
      i === 4 ? { ...sample, recipe: { white: 4, red: 2 } } : sample,
    );
    const found = characterise(jobOf(samples));
    expect(found.samples.filter(({ outlier }) => outlier).map(({ name }) => name)).toEqual(["film 4"]);
  });

  it("that K of the white cannot be told where it does not absorb", () => {
    const found = characterise(jobOf(noisy(LADDER, 0.01), { options: { smoothness: { k: 0, s: 0 } } }));
    const white = found.quality.find(({ id }) => id === "white");
    expect(white?.notIdentifiable).toContainEqual(
      expect.objectContaining({ what: "k", reason: "does not absorb" }),
    );
    expect(found.warnings.map(({ code }) => code)).toContain("not-identifiable");
  });

  it("that S of a toner known as opaque masstone alone cannot be told, for want of samples or of light", () => {
    const drawdowns = [film({ white: 1 }), film({ red: 1 }), film({ white: 1, red: 1 }), opaque({ blue: 1 })];
    const found = characterise(jobOf(noisy(drawdowns), { options: { smoothness: { k: 0, s: 0 } } }));
    const blue = found.quality.find(({ id }) => id === "blue");
    expect(blue?.notIdentifiable.map(({ what }) => what)).toEqual(expect.arrayContaining(["k", "s"]));
    expect(blue?.notIdentifiable.map(({ reason }) => reason)).toContain("hides fully");
    expect(found.rank).toBeLessThan(found.unknowns);
  });

  it("the same of readings as exact as rounding allows", () => {
    const drawdowns = [film({ white: 1 }), film({ red: 1 }), film({ white: 1, red: 1 }), opaque({ blue: 1 })];
    const options = { reflectanceSd: { floor: 1e-9, relative: 0 }, smoothness: { k: 0, s: 0 } };
    const found = characterise(jobOf(noisy(drawdowns, 0), { options }));
    const blue = found.quality.find(({ id }) => id === "blue");
    expect(blue?.notIdentifiable.map(({ what }) => what)).toEqual(expect.arrayContaining(["k", "s"]));
    for (const { sdOfLogK, sdOfLogS } of found.quality) {
      for (const sd of [...sdOfLogK, ...sdOfLogS]) expect(sd).toBeGreaterThanOrEqual(0);
    }
  });

  it("that opaque films tell nothing of the reflection of the surface", () => {
    const drawdowns = [opaque({ white: 1 }), opaque({ red: 1 }), opaque({ white: 1, red: 1 })];
    const found = characterise(jobOf(noisy(drawdowns), { options: { fitSurface: ["k2"] } }));
    expect(found.surfaceEstimates?.[0].identifiable).toBe(false);
  });

  it("how far a sample is predicted without itself, but not one that alone holds a toner", () => {
    const drawdowns = [...LADDER.slice(0, 6), film({ blue: 1 })];
    const found = characterise(jobOf(noisy(drawdowns), { options: { leaveOneOut: "each sample" } }));
    const leftOut = found.samples.map(({ readings }) => readings[1].deltaE00LeftOut);
    expect(leftOut[6]).toBeUndefined();
    for (const difference of leftOut.slice(0, 6)) expect(difference).toBeLessThan(3);
  });

  it("which drawdown would say most: the toner of which least is known", () => {
    const drawdowns = [...LADDER.slice(0, 6), film({ white: 1, blue: 1 })];
    const candidates = [
      { recipe: { white: 2, red: 1 }, backing: "black and white" },
      { recipe: { blue: 1 }, backing: "black and white" },
    ] as const;
    const { nextMeasurements } = characterise(jobOf(noisy(drawdowns), { candidates }));
    expect(nextMeasurements.map(({ recipe }) => recipe)).toEqual([
      candidates[1].recipe,
      candidates[0].recipe,
    ]);
    for (const { shrinksTo } of nextMeasurements) expect(shrinksTo).toBeLessThan(1);
  });

  it("all with a toner set whose file keeps the uncertainty", () => {
    const { toners } = characterise(jobOf(noisy(LADDER)));
    expect(toners.uncertainty?.length).toBeGreaterThan(0);
    expect(readToners(writeToners(toners))).toEqual(toners);
  });

  it("the same whatever order the samples come in", () => {
    const samples = noisy(LADDER);
    const [one, other] = [samples, [...samples].reverse()].map((list) =>
      characterise({ ...jobOf(samples), samples: list }),
    );
    one.toners.toners.forEach(({ k }, j) => {
      const others = other.toners.toners[j].k;
      for (const geometry of ["d:8 specular included"] as const) {
        Array.from(k[geometry] ?? []).forEach((value, band) => {
          expect(Math.abs(Math.log(value / (others[geometry]?.[band] ?? 0)))).toBeLessThan(0.02);
        });
      }
    });
  });
});
