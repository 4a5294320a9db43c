import { describe, expect, it } from "vitest";
import { sum } from "../../src/core/sum.js";
import { choice } from "../../src/correction/choice.js";
import { correct } from "../../src/correction/correct.js";
import { after } from "../../src/problem/after.js";
import { weightedDifference } from "../../src/problem/goal.js";
import { checkJob, type Job } from "../../src/problem/job.js";
import { poured } from "../../src/problem/poured.js";
import { type Problem, prepareProblem } from "../../src/problem/problem.js";
import { alikeToners, collinearWarnings, strengthOf } from "../../src/search/collinearToners.js";
import type { FoundMix } from "../../src/search/createSearch.js";
import { matches, pickMix } from "../../src/search/pickMix.js";
import { horseboxToners } from "../fixtures/horsebox.js";
import { between } from "./contract/jobs.js";

const all = horseboxToners();
const some = (...ids: readonly string[]) => all.toners.filter(({ id }) => ids.includes(id));
const [black] = some("black");
/** In the order of their ids: black, black-two, chrome, white, and a black twice as strong. */
const toners = {
  ...all,
  toners: [
    ...some("white", "yellow"),
    { ...black, id: "black-two" },
    { ...black, id: "strong", strength: 2 },
    black,
  ],
};
const job = between(toners, { white: 100 }, { white: 100, black: 0.8, yellow: 2 });
const prepared = (change: Partial<Job> = {}) => prepareProblem(checkJob({ ...job, ...change }));
const { problem } = prepared();
const ids = problem.model.set.toners.map(({ id }) => id);
const at = (grams: Readonly<Record<string, number>>) => Float64Array.from(ids, (id) => grams[id] ?? 0);
const [own, twin, strong, white] = ["black", "black-two", "strong", "white"].map((id) => ids.indexOf(id));

describe("toners that do the same", () => {
  it("are those that move the reflectance the same way, whatever their strength", () => {
    const { pot } = problem.bench;
    expect(alikeToners(problem.model, pot, own)).toEqual([twin, strong].sort((a, b) => a - b));
    expect(alikeToners(problem.model, pot, white)).toEqual([]);
    expect(strengthOf(problem.model, pot, twin)).toBe(strengthOf(problem.model, pot, own));
    expect(strengthOf(problem.model, pot, strong) / strengthOf(problem.model, pot, own)).toBeCloseTo(2, 9);
  });

  it("are warned of once, by name, where one of them is poured", () => {
    const { pot } = problem.bench;
    const warned = collinearWarnings(problem.model, pot, [own, twin, white]);
    expect(warned.map(({ code, toners: named }) => [code, named])).toEqual([
      ["collinear-toners", ["black", "black-two", "strong"]],
    ]);
    expect(warned[0].message).toContain("move the colour the same way");
    expect(collinearWarnings(problem.model, pot, [white])).toEqual([]);
  });
});

describe("a job made ready", () => {
  const codes = (change: Partial<Job>) => prepared(change).warnings.map(({ code, path }) => [code, path]);
  const [reading] = job.card.readings;
  const dark = (share: number) => ({
    ...reading,
    reflectance: Array.from(reading.reflectance, (r, b) => (b < share * toners.grid.count ? 0 : r)),
  });

  it("has its toners in the order of their ids, and is readable without a warning", () => {
    expect(ids).toEqual(["black", "black-two", "strong", "white", "yellow"]);
    expect(prepared().warnings).toEqual([]);
    expect(prepared().isReadable).toBe(true);
  });

  it("warns of a pot that is over its limit, not of one that fills it", () => {
    expect(codes({ limits: { potMaxGrams: 99 } })).toEqual([["pot-over-limit", "pot"]]);
    expect(codes({ limits: { potMaxGrams: 100 } })).toEqual([]);
    expect(prepared({ limits: { potMaxGrams: 99 } }).warnings[0].message).toContain("100 g");
  });

  it("warns of bands too dark to be read, of card or target, and is unreadable where they are more than half", () => {
    const some = prepared({ card: { readings: [dark(0.4)] } });
    // No pot gives such a card: that is said too.
    expect(some.warnings.map(({ code, path }) => [code, path])).toEqual([
      ["censored-bands", "card.readings"],
      ["card-not-from-pot", "card.readings"],
    ]);
    expect(some.isReadable).toBe(true);
    expect(prepared({ card: { readings: [dark(0.6)] } }).isReadable).toBe(false);
    const target = { name: "dark", readings: [dark(0.6)] };
    const both = prepared({ targets: [job.targets[0], target] });
    expect(both.isReadable).toBe(false);
    expect(both.warnings.map(({ path }) => path)).toEqual(["targets[1].readings"]);
    const { status, stopReason, additions } = correct({ ...job, targets: [target] });
    expect([status, stopReason, additions]).toEqual(["undetermined", "readings-censored", []]);
  });

  it("warns of readings on another grid and of a narrow range", () => {
    const every20 = {
      ...reading,
      grid: { start: 400, step: 20, count: 16 },
      reflectance: Array.from(reading.reflectance).filter((_, i) => i % 2 === 0),
    };
    expect(codes({ card: { readings: [every20] } })).toContainEqual(["resampled", "card.readings[0]"]);
    const from420 = {
      ...reading,
      grid: { start: 420, step: 10, count: 29 },
      reflectance: Array.from(reading.reflectance).slice(2),
    };
    expect(codes({ card: { readings: [from420] } }).map(([code]) => code)).toContain("narrow-range");
  });

  it("refuses a target read where the toners were not, with its place", () => {
    const elsewhere = { name: "other", readings: [{ ...reading, geometry: "45:0" as const }] };
    expect(() => prepared({ targets: [job.targets[0], elsewhere] })).toThrow(
      expect.objectContaining({ code: "unknown-geometry", path: "targets[1].readings[0].geometry" }),
    );
  });
});

describe("what is poured", () => {
  it("is what a scale shows, and all of it together", () => {
    expect(poured([1, 1e-5, 0, 1.1e-5, 2])).toEqual([0, 3, 4]);
    expect(sum([1, 0.5, 0])).toBe(1.5);
  });

  it("is judged by the exact model", () => {
    const additions = at({ black: 0.8, yellow: 2 });
    expect(choice(problem, additions)).toEqual({
      additions: [
        { toner: "black", grams: 0.8 },
        { toner: "yellow", grams: 2 },
      ],
      pours: 2,
      grams: 2.8,
      weightedDeltaE00: weightedDifference(problem.goal, after(problem, additions).lab),
      isWithinTolerance: true,
    });
    expect(choice(problem, at({}))).toMatchObject({
      additions: [],
      pours: 0,
      grams: 0,
      isWithinTolerance: false,
    });
    expect(matches(problem, additions)).toBe(true);
    expect(matches(problem, at({}))).toBe(false);
  });
});

describe("the mix picked", () => {
  const mix = (score: number, grams: Readonly<Record<string, number>>): FoundMix => ({
    toners: ids.flatMap((id, j) => (grams[id] ? [j] : [])),
    additions: at(grams),
    unrounded: at(grams),
    score,
  });
  // None of the first two matches; both of the others do.
  const one = mix(1, { yellow: 2 });
  const two = mix(0.9, { yellow: 2.1, white: 1 });
  const good = mix(0.3, { black: 0.8, yellow: 2 });
  const better = mix(0.2, { black: 0.8, yellow: 2, white: 1 });
  const worth = (pourWorth: number): Problem => ({ ...problem, bench: { ...problem.bench, pourWorth } });

  it("has as many pours as are worth their while", () => {
    expect(pickMix(worth(0.05), [good, better])).toBe(better);
    expect(pickMix(worth(0.2), [good, better])).toBe(good);
    expect(pickMix(worth(0.05), [one, two])).toBe(two);
    expect(pickMix(worth(0.2), [one, two])).toBe(one);
    expect(pickMix(worth(0.2), [])).toBeUndefined();
  });

  it("matches where one does, however little another pour is missed", () => {
    expect(pickMix(worth(10), [one, good])).toBe(good);
    expect(pickMix(worth(10), [one, good, better])).toBe(good);
  });
});

describe("what stands in the way", () => {
  const grams = { white: 100, black: 2, yellow: 2 };
  const few = { ...all, toners: some("white", "black", "yellow") };
  const options = { alternatives: false, wayOut: false } as const;

  it("is what is too much in the pot, by how much, and the room to dilute it", () => {
    const { obstacles } = correct(
      between(few, grams, { ...grams, black: 0.5 }, { limits: { potMaxGrams: 120 } }),
      options,
    );
    expect(obstacles.map(({ kind }) => kind)).toEqual(["room", "too-much-in-pot"]);
    const excess = obstacles.find(({ kind }) => kind === "too-much-in-pot");
    // Out of the fuller pot: no more than was too much at first.
    expect(excess).toMatchObject({ toner: "black", grams: expect.closeTo(1.5, 0) });
  });

  it("is the toners, where no mix of them is the colour", () => {
    const job = between(few, grams, grams);
    const blue = job.targets.map((target) => ({
      ...target,
      readings: target.readings.map((one) => ({
        ...one,
        reflectance: Array.from(one.reflectance, (_, b) => (b < 12 ? 0.6 : 0.05)),
      })),
    }));
    const kinds = correct({ ...job, targets: blue }, options).obstacles.map(({ kind }) => kind);
    expect(kinds).toContain("toners");
  });
});
