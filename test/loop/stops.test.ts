import { expect, it } from "vitest";
import { knownToners } from "../simulator/world.js";
import { ruleOfThumbPot } from "./arms.js";
import { advised, runStops, untilItReads } from "./runStops.js";

/* A few jobs: that the advice comes to an end, at a match, and not dearer by much than a plain rule. */

const { uncertainty: _, ...toners } = knownToners();
const seeds = [7000, 7001];
const run = (rule: typeof advised) => seeds.map((seed) => runStops(seed, toners, rule, ruleOfThumbPot));
const cost = (outcomes: ReturnType<typeof run>) => outcomes.reduce((sum, one) => sum + one.cost, 0);

it("whoever follows the advice ends with a match, and spends no more than by pouring until it reads 0.3", () => {
  const outcomes = run(advised);
  for (const { steps, deltaE00 } of outcomes) {
    const last = steps[steps.length - 1].step;
    expect(["good-enough", "blend"]).toContain(last);
    expect(deltaE00).toBeLessThan(last === "blend" ? 1 : 0.6);
  }
  expect(cost(outcomes)).toBeLessThan(cost(run(untilItReads(0.3))) + 30);
});
