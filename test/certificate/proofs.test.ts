import { describe, expect, it } from "vitest";
import { checkProof } from "../../src/certificate/checker/checkProof.js";
import { lowerBound } from "../../src/certificate/prover/lowerBound.js";
import { measured } from "../../src/certificate/prover/measure.js";
import { boundsFrom, proveAdditions } from "../../src/certificate/prover/proveAdditions.js";
import type { Proof, ProofCase } from "../../src/certificate/records/proof.js";
import { after as seenWith } from "../../src/problem/after.js";
import { closestMix, randomAdditions, randomOf, smallProblem } from "./smallProblems.js";

const splitsOf = ({ split }: ProofCase): number =>
  split ? 1 + splitsOf(split.low) + splitsOf(split.high) : 0;
const stepsOf = ({ rounds, split }: ProofCase): number =>
  rounds.flat().length + (split ? stepsOf(split.low) + stepsOf(split.high) : 0);

/** A problem whose targets are out of reach, with the best additions known and what they reach. */
function outOfReach(seed: number) {
  const { job, problem } = smallProblem(seed);
  const { additions } = closestMix(problem);
  const { lab } = seenWith(problem, additions);
  const heaviest = Math.max(...problem.goal.aims.map(({ weight }) => weight));
  const most = Math.min(measured("weighted", problem.goal, lab), 10 * Math.sqrt(heaviest));
  return { job, problem, additions, most, lab };
}

/** No additions, tried at random, may be below what was proved. */
function expectSound(seed: number, { measure, bound }: Proof) {
  const { problem, lab } = outOfReach(seed);
  const random = randomOf(seed);
  expect(measured(measure, problem.goal, lab)).toBeGreaterThanOrEqual(bound);
  for (let i = 0; i < 100; i++) {
    const { lab: other } = seenWith(problem, randomAdditions(problem, random));
    expect(measured(measure, problem.goal, other)).toBeGreaterThanOrEqual(bound);
  }
}

describe("a proof", () => {
  it.each([0, 1, 3, 7, 11, 12, 13])("of what is out of reach is found, and checked (seed %i)", (seed) => {
    const { problem, additions } = outOfReach(seed);
    const proof = lowerBound(problem, { measure: "worst", level: 1.0001, reference: additions });
    expect(checkProof(problem, proof)).toBeUndefined();
    expect(proof.bound).toBeGreaterThan(1);
    expect(proof.bound).toBeLessThanOrEqual(1.0001);
    // The first seven that are out of reach. None needs a split, and none more than 8 rounds, but seed 7, which is out by
    // least (1.37 of what is allowed) and takes 9: more would be a duller search.
    expect(splitsOf(proof.root)).toBe(0);
    expect(proof.root.rounds.length).toBeLessThanOrEqual(seed === 7 ? 9 : 8);
    expectSound(seed, proof);
  });

  // Of what is reached, the share asked for and the share of that proved: by today's search, less some hundredths. No theory
  // says how near it must come, but it must not come less near unnoticed.
  it.each([
    [0, 0.7, 1, 0],
    [0, 0.9, 0.93, 4],
    [1, 1, 1, 0],
    [3, 0.9, 0.82, 4],
    [7, 0.7, 1, 0],
    [7, 0.9, 0.95, 4],
    [11, 0.9, 0.75, 4],
    [12, 1, 0.85, 4],
    [13, 0.7, 0.36, 4],
    [18, 0.7, 0.64, 4],
    [20, 0.7, 0.78, 4],
  ])("of how near one can come, seed %i at %d of it, proves %d of that", (seed, share, least, splits) => {
    const { problem, additions, most } = outOfReach(seed);
    const proof = lowerBound(problem, { measure: "weighted", level: share * most, reference: additions });
    expect(checkProof(problem, proof)).toBeUndefined();
    expect(proof.bound / proof.level).toBeGreaterThan(least - 1e-5);
    expect(proof.bound).toBeLessThanOrEqual(proof.level);
    expect(splitsOf(proof.root)).toBeLessThanOrEqual(splits);
    expectSound(seed, proof);
  });

  it("stops early when rounds of tightening gain nothing", () => {
    const { problem, additions, most } = outOfReach(18);
    const question = { measure: "weighted", level: 0.9 * most, reference: additions } as const;
    const { root } = lowerBound(problem, question, { rounds: 16, roundsInCase: 0, splits: 0 });
    expect(root.rounds.length).toBeGreaterThan(0);
    expect(root.rounds.length).toBeLessThan(8);
  });

  it("keeps to its budget of work", () => {
    const { problem, additions, most } = outOfReach(12);
    const question = { measure: "weighted", level: most, reference: additions } as const;
    const with_ = (rounds: number, roundsInCase: number, splits: number) =>
      lowerBound(problem, question, { rounds, roundsInCase, splits });
    expect(with_(0, 0, 0).root.rounds).toEqual([]);
    const short = with_(2, 0, 0);
    expect(short.root.rounds.length).toBe(2);
    expect(splitsOf(short.root)).toBe(0);
    const split = with_(2, 3, 1);
    expect(splitsOf(split.root)).toBe(1);
    expect(split.root.split?.low.rounds.length).toBeLessThanOrEqual(3);
    expect(stepsOf(split.root)).toBeGreaterThan(stepsOf(short.root));
    // More work never proves less.
    expect(split.bound).toBeGreaterThanOrEqual(short.bound);
    expect(short.bound).toBeGreaterThanOrEqual(with_(0, 0, 0).bound);
    for (const proof of [short, split]) expect(checkProof(problem, proof)).toBeUndefined();
  });

  it("holds from any reference, and says nothing of an aim farther away than bounds are attempted", () => {
    const { problem, additions } = outOfReach(1);
    const nothing = new Float64Array(additions.length);
    const proof = lowerBound(problem, { measure: "worst", level: 1.0001, reference: nothing });
    expect(checkProof(problem, proof)).toBeUndefined();
    const far = lowerBound(problem, { measure: "worst", level: 1000, reference: nothing });
    expect(far.boxes.every((box) => box === null)).toBe(true);
    expect(far.directions).toEqual([]);
    expect(far.bound).toBe(0);
    expect(checkProof(problem, far)).toBeUndefined();
  });
});

describe("what proofs of either measure say of both", () => {
  const random = randomOf(3);
  const aims = [
    { weight: 0.5, allowed: 1 },
    { weight: 0.3, allowed: 0.6 },
    { weight: 0.2, allowed: 2.5 },
  ];
  const goal = { aims } as unknown as Parameters<typeof boundsFrom>[0]["goal"];
  const problem = { goal } as Parameters<typeof boundsFrom>[0];
  const weightedOf = (d: readonly number[]) =>
    Math.sqrt(aims.reduce((s, { weight }, i) => s + weight * d[i] ** 2, 0));
  const worstOf = (d: readonly number[]) => Math.max(...aims.map(({ allowed }, i) => d[i] / allowed));

  it("holds for any differences that a proof leaves, and nothing more could be said", () => {
    for (const measure of ["weighted", "worst"] as const) {
      const bound = 2;
      const { weighted, worst } = boundsFrom(problem, [{ measure, bound }]);
      let nearest = Number.POSITIVE_INFINITY;
      for (let i = 0; i < 5000; i++) {
        // Single aims missed, all at their limit, and anything between.
        const any = aims.map(({ allowed }, a) =>
          i < 3 ? Number(a === i) : i === 3 ? allowed : random.uniform() ** 3,
        );
        const here = measure === "weighted" ? weightedOf(any) : worstOf(any);
        const d = any.map((value) => (value * bound) / here);
        expect(weightedOf(d)).toBeGreaterThan(weighted - 1e-12);
        expect(worstOf(d)).toBeGreaterThan(worst - 1e-12);
        nearest = Math.min(nearest, measure === "weighted" ? worstOf(d) - worst : weightedOf(d) - weighted);
      }
      expect(nearest).toBeLessThan(1e-9);
      expect(measure === "weighted" ? weighted : worst).toBe(bound);
    }
  });

  it("is the best of them, and nothing without any", () => {
    const both = boundsFrom(problem, [
      { measure: "weighted", bound: 1 },
      { measure: "weighted", bound: 3 },
      { measure: "worst", bound: 2 },
    ]);
    expect(both.weighted).toBe(3);
    expect(both.worst).toBeGreaterThanOrEqual(2);
    expect(boundsFrom(problem, [])).toEqual({ weighted: 0, worst: 0 });
  });

  it("does not count an aim of no weight", () => {
    const idle = { aims: [...aims, { weight: 0, allowed: 1e-3 }] } as unknown as typeof goal;
    const bounds = boundsFrom({ goal: idle } as typeof problem, [{ measure: "weighted", bound: 2 }]);
    expect(bounds.worst).toBeCloseTo(boundsFrom(problem, [{ measure: "weighted", bound: 2 }]).worst, 12);
    expect(boundsFrom({ goal: idle } as typeof problem, [{ measure: "worst", bound: 2 }]).weighted).toBe(0);
  });
});

describe("the certificate of an answer", () => {
  const certified = (seed: number) => {
    const { problem, additions } = outOfReach(seed);
    return {
      problem,
      additions,
      certificate: proveAdditions(problem, { additions, unrounded: additions }, ["door"]),
    };
  };

  it("of what is out of reach has a proof of each measure that can be proved", () => {
    const { problem, additions, certificate } = certified(0);
    const { verdict, proofs, method, worstOfAllowed, weightedDeltaE00, binding } = certificate;
    expect(verdict).toBe("proved-out-of-reach");
    expect(method).toBe("outer-linearisation");
    expect(proofs.map(({ measure }) => measure)).toEqual(["worst", "weighted"]);
    const { lab } = seenWith(problem, additions);
    expect(worstOfAllowed.reached).toBe(measured("worst", problem.goal, lab));
    expect(weightedDeltaE00.reached).toBe(measured("weighted", problem.goal, lab));
    expect(worstOfAllowed.gap).toBe(worstOfAllowed.reached - worstOfAllowed.atLeast);
    expect(weightedDeltaE00.gap).toBe(weightedDeltaE00.reached - weightedDeltaE00.atLeast);
    expect(weightedDeltaE00.atLeast).toBeGreaterThan(0.8 * weightedDeltaE00.reached);
    expect(binding.length).toBeGreaterThan(0);
    expect(new Set(binding.map(({ target }) => target))).toEqual(new Set(["door"]));
  });

  it("takes for its reference the best mix that it knows, not the rounded answer", () => {
    const { problem, additions } = outOfReach(0);
    const nothing = new Float64Array(additions.length);
    const { proofs, weightedDeltaE00 } = proveAdditions(problem, { additions: nothing, unrounded: nothing }, [
      "door",
    ]);
    const ids = problem.model.set.toners.map(({ id }) => id);
    for (const { reference } of proofs) {
      const grams = ids.map((id) => reference[id] ?? 0);
      const there = measured("weighted", problem.goal, seenWith(problem, grams).lab);
      expect(there).toBeLessThan(0.9 * weightedDeltaE00.reached);
    }
    expect(weightedDeltaE00.atLeast).toBeGreaterThan(0);
  });

  it("of a match has nothing in its way, and says how much better a mix could be", () => {
    const { problem } = smallProblem(2);
    const { additions } = closestMix(problem);
    const { verdict, binding, proofs, method, weightedDeltaE00 } = proveAdditions(
      problem,
      { additions, unrounded: additions },
      ["door"],
    );
    expect(verdict).toBe("matched");
    // The panel was made of these toners: nothing is left that a proof could speak of.
    expect(weightedDeltaE00.reached).toBeLessThan(0.05);
    expect(proofs).toEqual([]);
    expect(binding).toEqual([]);
    expect(weightedDeltaE00.gap).toBeLessThanOrEqual(weightedDeltaE00.reached);
    expect(method).toBe(proofs.length > 0 ? "outer-linearisation" : "none");
    expect(proofs.some(({ measure }) => measure === "worst")).toBe(false);
  });
});
