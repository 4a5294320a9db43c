import { describe, expect, it } from "vitest";
import { characterise } from "../../src/characterisation/characterise.js";
import { drawDown, jobOf } from "./world.js";

const RECIPES = [
  { white: 1 },
  { red: 1 },
  { blue: 1 },
  { white: 1, red: 1 },
  { white: 4, red: 1 },
  { white: 1, blue: 1 },
  { white: 4, blue: 1 },
];
const samples = RECIPES.map((recipe, i) =>
  drawDown(`${i}`, { recipe, thickness: 1 + 0.1 * (i % 3), backings: [0.05, 0.85] }),
);
const candidates = [{ recipe: { red: 1, blue: 1, white: 2 }, backing: "opaque" }] as const;
const job = { ...jobOf(samples, { options: { leaveOneOut: "each sample" } }), candidates };
const limit = ({ warnings }: ReturnType<typeof characterise>) =>
  warnings.filter(({ code }) => code === "work-limit").map(({ message }) => message);

describe("the work of a characterisation", () => {
  it("suffices unless it is limited", () => {
    const found = characterise(job);
    expect(limit(found)).toEqual([]);
    expect(found.nextMeasurements).toHaveLength(1);
  });

  it.each([0, 1e5, 3e5])("of %d steps leaves toners as far as they were fitted, and says so", (maxWork) => {
    const found = characterise(job, () => {}, { maxWork });
    expect(limit(found)).toHaveLength(1);
    expect(found.nextMeasurements).toHaveLength(0);
    expect(found.toners.toners).toHaveLength(3);
    expect(characterise(job, () => {}, { maxWork })).toEqual(found);
    if (maxWork > 0) return;
    expect(found.stopReason).toBe("stopped");
    expect(found.warnings.map(({ code }) => code)).toContain("not-converged");
    expect(limit(found)[0]).toContain("the fit");
  });
});
