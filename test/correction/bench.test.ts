import { describe, expect, it } from "vitest";
import { createBench } from "../../src/problem/bench.js";
import { checkJob } from "../../src/problem/job.js";
import { checkLimits, type Limits } from "../../src/problem/limits.js";
import { horseboxJob } from "../fixtures/horsebox.js";

const job = horseboxJob();
const ids = job.toners.toners.map(({ id }) => id);
const pot = { white: 90, black: 10 };
const benchOf = (limits: Limits) => createBench(checkJob({ ...job, pot, limits }));
const of = (id: string) => ids.indexOf(id);

describe("the limits as numbers", () => {
  it("are a tenth of a gram, four pours and ten times the pot unless said otherwise", () => {
    const bench = benchOf({});
    expect(bench.room).toBe(900);
    expect([bench.step, bench.maxPours, bench.pourWorth]).toEqual([0.1, 4, 0.05]);
    expect(bench.pot[of("white")]).toBe(90);
    expect(bench.pot.reduce((sum, grams) => sum + grams, 0)).toBe(100);
    ids.forEach((_, j) => {
      expect([bench.unit[j], bench.drop[j], bench.least[j]]).toEqual([0.1, 0, 0.1]);
      expect(bench.stock[j]).toBe(Number.POSITIVE_INFINITY);
    });
  });

  it("are those that are given", () => {
    const bench = benchOf({ potMaxGrams: 130, maxPours: 2, pourWorthDeltaE00: 1, stockGrams: { black: 7 } });
    expect([bench.room, bench.maxPours, bench.pourWorth]).toEqual([30, 2, 1]);
    expect(bench.stock[of("black")]).toBe(7);
    expect(bench.stock[of("white")]).toBe(Number.POSITIVE_INFINITY);
    expect(benchOf({ potMaxGrams: 99 }).room).toBe(0);
  });

  it.each([
    [0.1, 0, 0.1],
    [0.1, 0.3, 0.3],
    [0.1, 0.31, 0.4],
    [0.5, 0.75, 1],
    [0, 2, 2],
    [0, 0, 0],
  ])("on a scale of %d g the least pour of %d g is %d g", (scaleStepGrams, minPourGrams, least) => {
    expect(benchOf({ scaleStepGrams, minPourGrams }).least[of("white")]).toBeCloseTo(least, 12);
  });

  it("bind a toner that is dosed in drops to its drop alone", () => {
    const bench = benchOf({ scaleStepGrams: 0.5, minPourGrams: 3, gramsPerDrop: { black: 0.02 } });
    const numbersOf = (id: string) => [bench.unit[of(id)], bench.drop[of(id)], bench.least[of(id)]];
    expect(numbersOf("black")).toEqual([0.02, 0.02, 0.02]);
    expect(numbersOf("white")).toEqual([0.5, 0, 3]);
  });
});

describe("limits that cannot be", () => {
  const toners = job.toners.toners;

  it.each([
    [{ potMaxGrams: 0 }, "out-of-range", "limits.potMaxGrams"],
    [{ potMaxGrams: 1e9 }, "out-of-range", "limits.potMaxGrams"],
    [{ scaleStepGrams: -0.1 }, "out-of-range", "limits.scaleStepGrams"],
    [{ scaleStepGrams: 1001 }, "out-of-range", "limits.scaleStepGrams"],
    [{ minPourGrams: -1 }, "out-of-range", "limits.minPourGrams"],
    [{ minPourGrams: 1e9 }, "out-of-range", "limits.minPourGrams"],
    [{ gramsPerDrop: { black: 0 } }, "out-of-range", "limits.gramsPerDrop.black"],
    [{ gramsPerDrop: { black: 1001 } }, "out-of-range", "limits.gramsPerDrop.black"],
    [{ gramsPerDrop: { chalk: 1 } }, "unknown-toner", "limits.gramsPerDrop.chalk"],
    [{ maxPours: 0 }, "out-of-range", "limits.maxPours"],
    [{ maxPours: 501 }, "out-of-range", "limits.maxPours"],
    [{ maxPours: 1.5 }, "wrong-type", "limits.maxPours"],
    [{ pourWorthDeltaE00: -1 }, "out-of-range", "limits.pourWorthDeltaE00"],
    [{ pourWorthDeltaE00: 101 }, "out-of-range", "limits.pourWorthDeltaE00"],
    [{ stockGrams: { black: -1 } }, "out-of-range", "limits.stockGrams.black"],
    [{ stockGrams: { chalk: 1 } }, "unknown-toner", "limits.stockGrams.chalk"],
    [{ scalestepGrams: 1 }, "unknown-key", "limits.scalestepGrams"],
  ])("are refused: %j", (limits, code, path) => {
    expect(() => checkLimits(limits, "limits", toners)).toThrow(expect.objectContaining({ code, path }));
  });

  it("keep every limit that is given, and leave out the others", () => {
    const limits = {
      potMaxGrams: 300,
      scaleStepGrams: 0,
      minPourGrams: 0,
      gramsPerDrop: { black: 1000 },
      maxPours: 500,
      pourWorthDeltaE00: 100,
      stockGrams: { white: 0 },
    };
    expect(checkLimits(limits, "limits", toners)).toEqual(limits);
    expect(checkLimits({}, "limits", toners)).toEqual({});
    for (const [key, value] of Object.entries(limits))
      expect(checkLimits({ [key]: value }, "limits", toners)).toEqual({ [key]: value });
  });
});

describe("a job that cannot be", () => {
  const [target] = job.targets;
  const spoilt: readonly (readonly [change: object, code: string, path: string])[] = [
    [{ pot: { white: 0 } }, "no-pigment", "pot"],
    [{ pot: {} }, "no-pigment", "pot"],
    [{ pot: { chalk: 1 } }, "unknown-toner", "pot.chalk"],
    [{ toners: 1 }, "wrong-type", "toners"],
    [{ viewing: {} }, "missing", "viewing.observer"],
    [{ card: {} }, "missing", "card.readings"],
    [{ card: undefined }, "missing", "card"],
    [{ targets: [] }, "wrong-length", "targets"],
    [
      { targets: Array.from({ length: 101 }, (_, i) => ({ ...target, name: `${i}` })) },
      "too-large",
      "targets",
    ],
    [{ targets: [{ ...target, name: " " }] }, "missing", "targets[0].name"],
    [{ targets: [{ ...target, role: "middle" }] }, "unknown-word", "targets[0].role"],
    [{ targets: [{ ...target, weight: -1 }] }, "out-of-range", "targets[0].weight"],
    [{ targets: [{ ...target, weight: 1e7 }] }, "out-of-range", "targets[0].weight"],
    [{ targets: [{ ...target, weight: 0 }] }, "out-of-range", "targets"],
    [{ targets: [{ name: "a" }] }, "missing", "targets[0].readings"],
    [{ targets: [target, target] }, "duplicate", "targets[1].name"],
    [{ objective: "best" }, "unknown-word", "objective"],
    [{ limits: { pours: 1 } }, "unknown-key", "limits.pours"],
    [{ tolerance: { edgeDeltaE00: -1 } }, "out-of-range", "tolerance.edgeDeltaE00"],
  ];

  it.each(spoilt)("is refused (%#)", (change, code, path) => {
    expect(() => checkJob({ ...job, ...change })).toThrow(expect.objectContaining({ code, path }));
  });

  it("has defaults for what is left out", () => {
    const { targets, objective, limits } = checkJob({ ...job, limits: undefined });
    expect(objective).toBe("least-squares");
    expect(limits).toEqual({});
    const [plain] = checkJob({ ...job, targets: [{ name: "a", readings: target.readings }] }).targets;
    expect([plain.role, plain.weight]).toEqual(["edge", 1]);
    expect(targets.length).toBe(job.targets.length);
    const kept = checkJob({
      ...job,
      targets: [
        { ...target, role: "blend", weight: 0.3 },
        { ...target, name: "b", weight: 0 },
      ],
    });
    expect(kept.targets.map(({ role, weight }) => [role, weight])).toEqual([
      ["blend", 0.3],
      [kept.targets[1].role, 0],
    ]);
    expect(checkJob({ ...job, objective: "minimax" }).objective).toBe("minimax");
  });
});
