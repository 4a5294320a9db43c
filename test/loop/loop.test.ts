import { describe, expect, it } from "vitest";
import { knownToners } from "../simulator/world.js";
import { ARMS } from "./arms.js";
import { oracle } from "./oracle.js";
import { type Arm, afterCorrections, type Outcome, runJob } from "./runJob.js";

/*
 * A small sample of docs/evidence.md: few jobs, so the margins are wide. It guards against a loop that has got worse by
 * much, not against one that is a little worse.
 */

const JOBS = 18;
const toners = knownToners();
const run = (arm: Arm, jobs = JOBS): readonly Outcome[] =>
  Array.from({ length: jobs }, (_, i) => runJob(1000 + i, toners, arm));
const within = (outcomes: readonly Outcome[], corrections: number): number =>
  outcomes.filter((one) => afterCorrections(one, corrections) <= 0.5).length / outcomes.length;

describe("whole jobs in a world of other physics", () => {
  it("tied to the card they end in the tolerance, which the model alone does not", () => {
    const bare = run(ARMS.unanchored);
    const tied = run(ARMS.lastCard);
    expect(within(bare, 0)).toBeLessThan(0.3);
    expect(within(tied, 1)).toBeGreaterThan(within(bare, 1) + 0.3);
    expect(within(tied, 2)).toBeGreaterThan(0.85);
    for (const outcome of tied) expect(outcome.deltaE00.at(-1)).toBeLessThan(1.5);
  }, 60_000);

  it("learning and staying with the pot come near at the first correction, and lose no pot", () => {
    const outcomes = run(ARMS.full, 12);
    expect(within(outcomes, 1)).toBeGreaterThan(0.7);
    expect(within(outcomes, 2)).toBeGreaterThan(0.8);
    for (const { deltaE00 } of outcomes) expect(deltaE00.at(-1)).toBeLessThan(1);
  }, 60_000);

  it("an oracle meets the tolerance at once: the world's noise alone does not forbid it", () => {
    expect(within(run(oracle, 3), 1)).toBe(1);
  }, 60_000);
});
