import { describe, expect, it } from "vitest";
import { correct } from "../../src/correction/correct.js";
import type { Correction } from "../../src/correction/correction.js";
import { correctionNotes } from "../../src/report/correction/correctionNotes.js";
import { horseboxJob } from "../fixtures/horsebox.js";

const found = correct(horseboxJob());
const nothingToSay: Correction = {
  ...found,
  objective: "least-squares",
  alternatives: [],
  ties: [],
  unused: [],
  finerScale: null,
  search: { method: "all-subsets", subsets: 1, latticePoints: 1, gapDeltaE00: 0, riskShare: 1 },
};
const names = { black: "lamp black", "weak-black": "weak black" };
const linesOf = (change: Partial<Correction>) => {
  const { otherWays, why } = correctionNotes({ ...nothingToSay, ...change } as Correction, names);
  return [...otherWays, ...why];
};

describe("correctionNotes", () => {
  it("says nothing where there is nothing to say", () => {
    expect(linesOf({})).toEqual([]);
  });

  it("puts other ways into words, with what they leave and whether that is within tolerance", () => {
    const one = { pours: 1, grams: 2.5, additions: [{ toner: "black", grams: 2.5 }] };
    expect(
      linesOf({
        alternatives: [
          {
            kind: "blend",
            pours: 0,
            grams: 0,
            additions: [],
            weightedDeltaE00: 0.7,
            isWithinTolerance: false,
          },
          {
            kind: "other-toners",
            without: "weak-black",
            ...one,
            weightedDeltaE00: 0.314,
            isWithinTolerance: true,
          },
          { kind: "fewer-pours", ...one, weightedDeltaE00: 1.2, isWithinTolerance: false },
        ],
      }),
    ).toEqual([
      "pour nothing and blend every panel out: ΔE00 0.70, not within tolerance",
      "without weak black: lamp black 2.5 g; ΔE00 0.31",
      "with fewer pours: lamp black 2.5 g; ΔE00 1.20, not within tolerance",
    ]);
  });

  it("says what decided a tie", () => {
    const [line] = linesOf({ ties: [{ toner: "black", insteadOf: ["weak-black"], decidedBy: "stock" }] });
    expect(line).toBe("lamp black rather than weak black, which would do the same: it leaves more in stock");
  });

  it("gathers the toners that are not used under their reasons", () => {
    expect(
      linesOf({
        unused: [
          { toner: "violet", reason: "stock" },
          { toner: "black", reason: "wrong-way" },
          { toner: "green", reason: "stock" },
        ],
      }),
    ).toEqual(["not used, not in stock: violet, green", "not used, goes the wrong way: lamp black"]);
  });

  it("names a finer scale only where it would show", () => {
    const weightedDeltaE00 = { before: 3, after: 0.4 };
    const finer = (left: number) =>
      linesOf({ weightedDeltaE00, finerScale: { stepGrams: 0.01, weightedDeltaE00: left } });
    expect(finer(0.25)).toEqual(["a scale that shows 0.01 g would bring ΔE00 0.25 instead of 0.40"]);
    expect(finer(0.395)).toEqual([]);
  });

  it("says what thrift saves, and what the closest match would be", () => {
    const closest = {
      additions: [{ toner: "white", grams: 400 }],
      pours: 1,
      grams: 400,
      weightedDeltaE00: 0.004,
      isWithinTolerance: true,
    };
    const weightedDeltaE00 = { before: 3, after: 0.12 };
    expect(linesOf({ closest, weightedDeltaE00 })).toEqual([
      expect.stringMatching(
        /^thrift: .* of paint leave ΔE00 0\.12; the closest match would leave 0\.00 and take 400(\.0+)? g: .*400(\.0+)? g$/,
      ),
    ]);
  });

  it("says how far the search went where it is not proved best, and what was made small", () => {
    const search = nothingToSay.search;
    expect(linesOf({ search: { ...search, gapDeltaE00: 0.12 } })).toEqual([
      "a mix that the search did not look into would be better by no more than ΔE00 0.12",
    ]);
    expect(
      linesOf({ search: { ...search, method: "all-subsets-then-stepwise", gapDeltaE00: null } }),
    ).toEqual(["beyond four pours the toners are found one by one: good, not proved best"]);
    expect(linesOf({ objective: "minimax" })).toEqual([
      "what is made small is the worst difference, each against its allowance",
    ]);
  });
});
