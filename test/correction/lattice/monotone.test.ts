import { describe, expect, it } from "vitest";
import { horseboxToners } from "../../fixtures/horsebox.js";
import { withoutDoubt } from "../../fixtures/noDoubt.js";
import { randomJob } from "./randomJobs.js";
import { lossByRelaxing, RELAXED } from "./relaxedJobs.js";
import { compareUnrounded, unroundedJob } from "./unroundedJobs.js";

const toners = horseboxToners();
/**
 * Of far targets the doubt that counts depends on where colour alone would go (`trueRisk`), and so on the cup: what is
 * made small is then another thing. These are held where nothing is in doubt.
 */
const surelyUnrounded = (set: typeof toners, seed: number) => withoutDoubt(unroundedJob(set, seed, 0));
const SEEDS = Array.from({ length: 40 }, (_, i) => i + 1);

describe.each(Object.entries(RELAXED))("with %s", (_name, relax) => {
  it.each([
    ["in whole steps", randomJob],
    ["in a cup of several pots", (set: typeof toners, seed: number) => randomJob(set, seed, 4)],
    ["of what nothing rounds, near and far, nothing in doubt", surelyUnrounded],
  ] as const)("an answer is never worse by more than it says, %s", (_kind, jobOf) => {
    for (const seed of SEEDS) expect(lossByRelaxing(jobOf(toners, seed), relax), `seed ${seed}`).toBe(0);
  });
});

describe("amounts that nothing rounds", () => {
  it("are no further off than the gap says, against many starts in every set of toners", () => {
    let far = 0;
    for (const seed of [...SEEDS, 249, 896, 1401, 1758]) {
      for (const { pours, ours, best, gap } of compareUnrounded(surelyUnrounded(toners, seed), seed)) {
        expect(ours - best, `seed ${seed}, ${pours} pours`).toBeLessThanOrEqual(gap);
        if (best > 1) far++;
      }
    }
    expect(far).toBeGreaterThan(20);
  });
});
