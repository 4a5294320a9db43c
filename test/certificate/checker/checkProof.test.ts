import { describe, expect, it } from "vitest";
import { checkProof } from "../../../src/certificate/checker/checkProof.js";
import { lowerBound } from "../../../src/certificate/prover/lowerBound.js";
import { measured } from "../../../src/certificate/prover/measure.js";
import type {
  Direction,
  Multiplier,
  Proof,
  ProofCase,
  Tightening,
} from "../../../src/certificate/records/proof.js";
import { after as seenWith } from "../../../src/problem/after.js";
import { closestMix, smallProblem } from "../smallProblems.js";

function proved(seed: number, measure: Proof["measure"], share: number) {
  const { problem } = smallProblem(seed);
  const { additions } = closestMix(problem);
  const level =
    measure === "worst" ? 1.0001 : share * measured(measure, problem.goal, seenWith(problem, additions).lab);
  const proof = lowerBound(problem, { measure, level, reference: additions });
  const fault = (change: Partial<Proof>) => checkProof(problem, { ...proof, ...change });
  const rooted = (root: ProofCase) => fault({ root });
  return { problem, proof, fault, rooted };
}

/** Ranges made narrower in several rounds, then an end; and a proof by cases. */
const plain = proved(7, "worst", 1);
const split = proved(12, "weighted", 0.9);

const replaced = <T>(list: readonly T[], i: number, value: T): readonly T[] =>
  list.map((old, j) => (j === i ? value : old));

describe("the checker of a proof", () => {
  it("accepts what was proved, with and without cases", () => {
    for (const { fault } of [plain, split]) expect(fault({})).toBeUndefined();
    expect(plain.proof.root.rounds.length).toBeGreaterThan(2);
    expect(split.proof.root.split).toBeDefined();
  });

  it("wants a bound from 0 to the level, and a level above 0", () => {
    const { bound, level } = plain.proof;
    const wrong = "the bound does not lie between 0 and the level";
    expect(plain.fault({ bound: -1e-9 })).toBe(wrong);
    expect(plain.fault({ bound: level * (1 + 1e-9) })).toBe(wrong);
    expect(plain.fault({ bound: Number.NaN })).toBe(wrong);
    expect(plain.fault({ bound: 0, level: 0 })).toBe(wrong);
    // The rows contradict one another at the level: the bound may be the level itself.
    expect(plain.fault({ bound: level })).toBeUndefined();
    // Less than was proved is proved too.
    expect(plain.fault({ bound: 0.5 * bound })).toBeUndefined();
    expect(plain.fault({ bound: 0 })).toBeUndefined();
  });

  it("wants one box per aim, and a reference that is a mix of the toners", () => {
    const { boxes, reference } = plain.proof;
    expect(plain.fault({ boxes: boxes.slice(1) })).toBe("not one box per aim");
    expect(plain.fault({ reference: { ...reference, chalk: 1 } })).toBe(
      "the reference names an unknown toner",
    );
    const [id] = Object.keys(reference);
    for (const grams of [-1, Number.POSITIVE_INFINITY, Number.NaN])
      expect(plain.fault({ reference: { ...reference, [id]: grams } })).toBe("the reference is no mix");
  });

  it("wants every box to hold all colours within the level, on each of its six sides", () => {
    const { boxes } = plain.proof;
    boxes.forEach((box, i) => {
      if (!box) throw new Error("the proof leaves an aim out");
      for (const side of ["low", "high"] as const) {
        for (const axis of [0, 1, 2]) {
          const middle = (box.low[axis] + box.high[axis]) / 2;
          const ends = replaced(box[side], axis, box[side][axis] + 0.3 * (middle - box[side][axis]));
          const narrow = { ...box, [side]: ends as unknown as typeof box.low };
          expect(plain.fault({ boxes: replaced(boxes, i, narrow) })).toBe(`box ${i} is too small`);
        }
      }
    });
    // Left out, an aim needs no box; but nothing may look at it, nor follow from it.
    expect(plain.fault({ boxes: replaced(boxes, 0, null) })).toBe(
      "direction 0 looks at an aim that is left out",
    );
    const nothing: ProofCase = { rounds: [], end: [] };
    const alone = { boxes: boxes.map(() => null), directions: [], bound: 0, root: nothing };
    expect(plain.fault(alone)).toBeUndefined();
  });

  it("wants every direction to promise no less than CIEDE2000 allows", () => {
    const { directions } = plain.proof;
    const changed = (d: number, change: Partial<Direction>) =>
      plain.fault({ directions: replaced(directions, d, { ...directions[d], ...change }) });
    for (const d of [0, 5, directions.length - 1]) {
      const { norms, along } = directions[d];
      expect(changed(d, { norms: norms.map((norm) => 0.85 * norm) })).toBe(
        `direction ${d} promises too much`,
      );
      expect(changed(d, { along: along.slice(1) })).toBe(`direction ${d} is malformed`);
      expect(changed(d, { norms: norms.slice(1) })).toBe(`direction ${d} is malformed`);
      expect(changed(d, { along: [...along, [0, 0, 0]] })).toBe(`direction ${d} is malformed`);
    }
  });

  /** The proof with one of its steps changed. */
  const tightened = (round: number, step: number, change: object) => {
    const { rounds } = split.proof.root;
    const steps = replaced(rounds[round], step, { ...rounds[round][step], ...change } as Tightening);
    return split.rooted({ ...split.proof.root, rounds: replaced(rounds, round, steps) });
  };

  it("wants every range to follow from the rows, neither narrower nor other than it was written", () => {
    // The first step of each kind.
    const kinds = new Map<string, readonly [round: number, step: number]>();
    split.proof.root.rounds.forEach((round, r) => {
      round.forEach(({ of, end }, i) => {
        if (!kinds.has(`${of} ${end}`)) kinds.set(`${of} ${end}`, [r, i]);
      });
    });
    expect([...kinds.keys()].sort()).toEqual([
      "ratio high",
      "ratio low",
      "scattering high",
      "scattering low",
    ]);
    for (const [round, step] of kinds.values()) {
      const { of, band, end, value, multipliers } = split.proof.root.rounds[round][step];
      const wrong = `the ${end} ${of} of band ${band} does not follow`;
      expect(tightened(round, step, { value: value * 1.001 })).toBe(wrong);
      expect(tightened(round, step, { value: value * 0.999 })).toBe(wrong);
      expect(tightened(round, step, { multipliers: [] })).toBe(wrong);
      const unsound: readonly Multiplier[] = [...multipliers, [0, -1]];
      expect(tightened(round, step, { multipliers: unsound })).toBe("a range has unsound multipliers");
    }
  });

  it("wants every range to be one that there is", () => {
    for (const change of [{ of: "colour" }, { end: "middle" }, { band: 999 }, { band: -1 }, { band: 0.5 }])
      expect(tightened(0, 0, change)).toBe("a range is malformed");
  });

  it("lets no range be widened again by a later step", () => {
    const { rounds } = plain.proof.root;
    // The first round once more: its steps follow still, but what they say is known.
    expect(plain.rooted({ ...plain.proof.root, rounds: [rounds[0], ...rounds] })).not.toBeUndefined();
  });

  it("wants an end that follows", () => {
    const { root, bound, level } = plain.proof;
    const { rounds, end = [] } = root;
    expect(plain.rooted({ rounds })).toBe("a case has no end");
    expect(plain.fault({ root: { rounds }, bound: 0 })).toBeUndefined();
    expect(plain.rooted({ rounds, end: [] })).toBe("an end does not follow");
    expect(plain.rooted({ rounds, end: [...end, [1e6, 1]] })).toBe("an end has unsound multipliers");
    expect(plain.rooted({ rounds: [], end })).toBe("an end does not follow");
    expect(bound).toBeLessThan(level);
    // A weaker proof of cases may not claim what it does not show.
    const { bound: shown, level: most } = split.proof;
    expect(shown).toBeLessThan(0.9999 * most);
    expect(split.fault({ bound: Math.min(most, shown * 1.001) })).toBe("an end does not follow");
  });

  it("wants both cases of a split, on their own sides", () => {
    const { root } = split.proof;
    if (!root.split) throw new Error("no split");
    const { low, high, at, band } = root.split;
    const cut = (change: Partial<NonNullable<ProofCase["split"]>>) =>
      split.rooted({ ...root, split: { band, at, low, high, ...change } });
    for (const change of [
      { at: 0 },
      { at: -1 },
      { at: Number.NaN },
      { band: 0.5 },
      { band: -1 },
      { band: 9999 },
    ])
      expect(cut(change)).toBe("a split is malformed");
    expect(cut({ low: { rounds: [] } })).toBe("a case has no end");
    expect(cut({ high: { rounds: [] } })).toBe("a case has no end");
    expect(cut({ low: high, high: low })).not.toBeUndefined();
    expect(cut({ at: 1.5 * at })).not.toBeUndefined();
    expect(cut({ at: at / 1.5 })).not.toBeUndefined();
  });

  it("goes forty splits deep and no deeper", () => {
    const nested = (depth: number): ProofCase =>
      depth === 0
        ? { rounds: [] }
        : { rounds: [], split: { band: 0, at: 1, low: { rounds: [] }, high: nested(depth - 1) } };
    const nothing = { boxes: plain.proof.boxes.map(() => null), directions: [], bound: 0 };
    expect(plain.fault({ ...nothing, root: nested(40) })).toBeUndefined();
    expect(plain.fault({ ...nothing, root: nested(41) })).toBe("a split is malformed");
  });
});
