import { describe, expect, it } from "vitest";
import { isReachable, oncePoured } from "../../../src/forecast/reachable.js";
import { recoveryMargin } from "../../../src/forecast/recoveryMargin.js";
import { returnProbability } from "../../../src/forecast/returnProbability.js";
import { createRandom } from "../../../src/numeric/probability/random.js";
import { predict } from "../../../src/prediction/predict.js";
import { after as pouredInto } from "../../../src/problem/after.js";
import { isWithin } from "../../../src/problem/goal.js";
import { checkJob, type Job } from "../../../src/problem/job.js";
import { type Problem, prepareProblem } from "../../../src/problem/problem.js";
import { type Grams, gramsInOrder } from "../../../src/toners/pot.js";
import { horseboxToners } from "../../fixtures/horsebox.js";

const toners = horseboxToners();
const viewing = { observer: "1964-10", illuminants: [{ name: "D65" }] } as const;
const pot: Grams = { white: 100, ochre: 5, green: 3 };
const added: Grams = { violet: 2, black: 1 };
const sum = (...mixes: readonly Grams[]): Grams => {
  const all: Record<string, number> = {};
  for (const mix of mixes) for (const [id, grams] of Object.entries(mix)) all[id] = (all[id] ?? 0) + grams;
  return all;
};

/** Card and target are made by the model: what is judged is the search for a way back, not the model. */
function problemFor(limits: Job["limits"] = {}): {
  readonly problem: Problem;
  readonly additions: Float64Array;
} {
  const readingsOf = (grams: Grams) => predict({ toners, viewing, pot: grams }).readings;
  const job = {
    toners,
    viewing,
    pot,
    card: { readings: readingsOf(pot) },
    targets: [{ name: "panel", readings: readingsOf(sum(pot, added)) }],
    limits,
  };
  const { problem } = prepareProblem(checkJob(job));
  return { problem, additions: gramsInOrder(added, problem.model.set.toners) };
}
const indexOf = (problem: Problem, id: string) =>
  problem.model.set.toners.findIndex((toner) => toner.id === id);
const overPoured = (additions: Float64Array, j: number, share: number) =>
  additions.map((grams, i) => (i === j ? grams * (1 + share) : grams));

const at = (problem: Problem, additions: Float64Array) => pouredInto(problem, additions).lab;

describe("how much too much can be put right", () => {
  it("a fuller cup has the wider margin; at the margin there is a way, a little beyond none was found", () => {
    let last = -1;
    for (const potMaxGrams of [115, 125, 150]) {
      const { problem, additions } = problemFor({ potMaxGrams });
      const j = indexOf(problem, "violet");
      const margin = recoveryMargin(problem, additions, j);
      expect(margin.kind).toBe("up-to");
      expect(margin.grams).toBeCloseTo(margin.share * 2, 12);
      expect(margin.share).toBeGreaterThan(last);
      last = margin.share;
      expect(isReachable(oncePoured(problem, overPoured(additions, j, margin.share)))).toBe(true);
      expect(isReachable(oncePoured(problem, overPoured(additions, j, 1.2 * margin.share + 0.02)))).toBe(
        false,
      );
    }
  });

  it("is nothing where the cup is full, and all that the stock holds where that is little", () => {
    const full = problemFor({ potMaxGrams: 111 });
    const j = indexOf(full.problem, "violet");
    const margin = recoveryMargin(full.problem, full.additions, j);
    expect(margin.share).toBeCloseTo(0, 12);
    const scarce = problemFor({ stockGrams: { violet: 2.01 } });
    expect(recoveryMargin(scarce.problem, scarce.additions, j)).toMatchObject({
      kind: "all-there-is-room-for",
      grams: expect.closeTo(0.01, 9),
    });
  });

  it("is 0 at the point of no return: poured up to the margin, no more can be put right", () => {
    const { problem, additions } = problemFor({ potMaxGrams: 125 });
    const j = indexOf(problem, "violet");
    const { share } = recoveryMargin(problem, additions, j);
    const atIt = overPoured(additions, j, share);
    expect(recoveryMargin(problem, atIt, j).share).toBeLessThan(0.02);
    const past = overPoured(additions, j, 1.5 * share);
    expect(recoveryMargin(problem, past, j)).toEqual({ kind: "none", share: 0, grams: 0 });
  });
});

describe("the probability that there is no way back", () => {
  it("never falls as more is poured, near 0 and near 1 far from the point of no return", () => {
    const { problem, additions } = problemFor({ potMaxGrams: 130 });
    const violet = indexOf(problem, "violet");
    const probabilities = [0.3, 0.8, 1, 1.2, 1.5, 2, 3].map((share) => {
      const poured = overPoured(additions, violet, share - 1);
      const lab = at(problem, poured);
      const covariance = Float64Array.of(0.16, 0, 0, 0, 0.16, 0, 0, 0, 0.16);
      return (
        1 -
        returnProbability(
          problem,
          poured,
          { mean: lab, covariance, predicted: lab },
          { draws: 60, random: createRandom(4) },
        )
      );
    });
    expect(probabilities[0]).toBeLessThan(0.05);
    expect(probabilities[probabilities.length - 1]).toBeGreaterThan(0.95);
    probabilities.slice(1).forEach((value, i) => {
      expect(value).toBeGreaterThanOrEqual(probabilities[i]);
    });
    expect(probabilities.some((value) => value > 0 && value < 1)).toBe(true);
  });

  it("is 0 or 1 by the margin where there is no spread", () => {
    const { problem, additions } = problemFor({ potMaxGrams: 125 });
    const lab = at(problem, additions);
    expect(isWithin(problem.goal, lab)).toBe(true);
    const still = { mean: lab, covariance: new Float64Array(9), predicted: lab };
    expect(returnProbability(problem, additions, still, { draws: 2, random: createRandom(1) })).toBe(1);
  });
});
