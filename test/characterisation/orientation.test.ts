import { describe, expect, it } from "vitest";
import { characterise } from "../../src/characterisation/characterise.js";
import { type CharacterisationJob, checkCharacterisationJob } from "../../src/characterisation/job.js";
import { linearise } from "../../src/characterisation/linearise.js";
import { observe } from "../../src/characterisation/observations.js";
import type { SprayedAs } from "../../src/characterisation/sample.js";
import { startLinear } from "../../src/characterisation/startLinear.js";
import { layOutUnknowns } from "../../src/characterisation/unknowns.js";
import type { Geometry } from "../../src/surface/geometry.js";
import { readingsLying, THREE_ANGLES, withOrientation } from "../fixtures/threeAngles.js";

const { grid, surfaces, toners } = THREE_ANGLES;
/** What spraying truly does to the silver. */
const TRUE = withOrientation().toners[0].orientation ?? {};
const sampleOf = (recipe: Readonly<Record<string, number>>, spray: SprayedAs = "as the ladder", x = 0) => ({
  name: `${JSON.stringify(recipe)} ${x}`,
  recipe,
  spray,
  readings: readingsLying(recipe, x).map(({ geometry, reflectance }) => ({
    geometry,
    grid,
    reflectance,
  })),
});
const dark = { silver: 0.8, black: 0.2 };
const ladder = [
  ...[{ silver: 1 }, { silver: 0.95, black: 0.05 }, dark].map((recipe) => sampleOf(recipe)),
  ...[0.9, 0.7].map((silver) => sampleOf({ silver, blue: 1 - silver })),
];
const turned = [-0.2, -0.1, 0.1, 0.2].map((x) => sampleOf(dark, x < 0 ? "flatter" : "steeper", x));
const jobOf = (samples: CharacterisationJob["samples"]): CharacterisationJob => ({
  grid,
  surfaces,
  toners: toners
    .filter(({ id }) => id !== "white")
    .map(({ id, role }) => ({ id, role: role ?? "chromatic" })),
  samples,
  reference: "silver",
});

describe("orientation of flake", () => {
  it("is found by angle from films of one let-down sprayed several ways", () => {
    const found = characterise(jobOf([...ladder, ...turned])).toners.toners;
    const [silver, ...others] = found;
    for (const [geometry, { slope: known }] of Object.entries(TRUE)) {
      const { slope = Number.NaN } = silver.orientation?.[geometry as Geometry] ?? {};
      // "Flatter" and "steeper" set the scale: slopes are known up to that.
      expect(slope / known).toBeGreaterThan(0.75);
      expect(slope / known).toBeLessThan(1.25);
    }
    expect(others.every(({ orientation }) => orientation === undefined)).toBe(true);
  });

  it("is left out without such films, and nothing else changes", () => {
    const found = characterise(jobOf(ladder)).toners;
    const unsaid = ladder.map(({ spray: _, ...sample }) => sample);
    expect(found.toners.every(({ orientation }) => orientation === undefined)).toBe(true);
    expect(found).toEqual(characterise(jobOf(unsaid)).toners);
  });

  it("has slopes that are those of differences", () => {
    const observations = observe(checkCharacterisationJob(jobOf([...ladder, ...turned])));
    const unknowns = layOutUnknowns(observations);
    const { local, border } = startLinear(observations, unknowns);
    unknowns.orientation.forEach((place, i) => {
      if (place < 0) return;
      border[place] = [-2, 1, 1.5][i % 3];
      border[place + 1] = [0.5, -1, 2][i % 3];
    });
    const rows = local.length;
    const { gradient } = linearise(observations, unknowns, { local, border });
    border.forEach((value, p) => {
      const costAt = (moved: number) =>
        linearise(observations, unknowns, { local, border: border.map((v, q) => (q === p ? moved : v)) })
          .cost;
      const slope = (costAt(value + 1e-5) - costAt(value - 1e-5)) / 2e-5;
      expect(Math.abs(gradient[rows + p] - slope)).toBeLessThan(1e-4 * Math.abs(slope) + 1);
    });
  });
});
