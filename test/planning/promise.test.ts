import { beforeAll, describe, expect, it } from "vitest";
import type { TonerSet } from "../../src/toners/tonerSet.js";
import { fadeTrial, reachTrial, trialToners } from "../simulator/planTrials.js";

/** A small sample of docs/evidence.md, in the simulated world of other physics; seeded, so it cannot flicker. */
describe("what a plan promises, in a world of other physics", () => {
  let toners: TonerSet;
  beforeAll(() => {
    toners = trialToners();
  }, 120_000);

  it("keeps all but one in twenty first pots within reach; the full formula keeps few", () => {
    const pots = Array.from({ length: 60 }, (_, seed) => reachTrial(seed, toners));
    expect(pots.filter(({ isReached }) => !isReached).length).toBeLessThanOrEqual(3);
    expect(pots.filter(({ isReachedFromFull }) => isReachedFromFull).length).toBeLessThan(20);
    expect(pots.every(({ keptBack }) => keptBack > 0 && keptBack < 1)).toBe(true);
  }, 120_000);

  it("finds the formula, refuses most far variants and never the right one, and its intervals hold what they should", () => {
    const shops = Array.from({ length: 40 }, (_, seed) => fadeTrial(1000 + seed, toners));
    expect(shops.filter(({ right }) => right.isFirst).length).toBeGreaterThanOrEqual(36);
    expect(shops.filter(({ right }) => !right.explains).length).toBeLessThanOrEqual(1);
    const far = shops.filter(({ variantDeltaE00 }) => variantDeltaE00 > 3);
    expect(far.filter(({ wrong }) => !wrong.explains).length).toBeGreaterThan(far.length / 2);
    const fractions = shops.flatMap((shop) => shop.fractions);
    const held = fractions.filter(({ truth, low, high }) => low <= truth && truth <= high);
    expect(held.length / fractions.length).toBeGreaterThan(0.75);
  }, 120_000);
});
