import { describe, expect, it } from "vitest";
import { correct } from "../../../src/correction/correct.js";
import type { Correction } from "../../../src/correction/correction.js";
import type { Job } from "../../../src/problem/job.js";
import { horseboxToners } from "../../fixtures/horsebox.js";
import { withoutDoubt } from "../../fixtures/noDoubt.js";
import { between } from "./jobs.js";
import { PROMISES } from "./promises.js";

const all = horseboxToners();
const some = (...ids: readonly string[]) => ({
  ...all,
  toners: all.toners.filter(({ id }) => ids.includes(id)),
});
const few = some("white", "black", "ochre", "yellow");
const pot = { white: 100, ochre: 2 };
const towards = (panel: Readonly<Record<string, number>>, more: Partial<Job> = {}) =>
  withoutDoubt(between(few, pot, { ...pot, ...panel }, more));
const [panel] = towards({ black: 0.6 }).targets;
const [other] = towards({ black: 1.1, yellow: 2 }).targets;

/** Kinds of job with so few toners that an answer takes a moment: every promise is looked at, proofs left out. */
const JOBS: Readonly<Record<string, Job>> = {
  "two pours": towards({ black: 0.6, yellow: 3 }),
  "two pours where one is allowed": towards({ black: 0.6, yellow: 3 }, { limits: { maxPours: 1 } }),
  "three pours, worth little": towards(
    { black: 0.6, yellow: 3, ochre: 5 },
    { limits: { pourWorthDeltaE00: 3 } },
  ),
  nothing: towards({}),
  "more than the cup holds": towards({ black: 20 }, { limits: { potMaxGrams: 108 } }),
  "more than there is": towards({ black: 2 }, { limits: { stockGrams: { black: 1.5 } } }),
  "a coarse scale": towards({ black: 0.6, yellow: 3 }, { limits: { scaleStepGrams: 2, potMaxGrams: 130 } }),
  "drops and a least pour": towards(
    { black: 0.6, yellow: 3 },
    { limits: { gramsPerDrop: { black: 0.02 }, minPourGrams: 1 } },
  ),
  "grams without steps": towards({ black: 0.6, yellow: 3 }, { limits: { scaleStepGrams: 0 } }),
  "more paint than is worth it": towards({ white: 400, black: 2.1, ochre: 8 }),
  "two edges": { ...towards({}), targets: [panel, { ...other, name: "other" }] },
  "an edge and a blend, the worst": {
    ...towards({}, { objective: "minimax" }),
    targets: [panel, { ...other, name: "other", role: "blend" }],
  },
  "twins and a let-down": withoutDoubt(
    between(
      {
        ...all,
        toners: [
          ...some("white", "black", "weak-black").toners,
          { ...some("black").toners[0], id: "black-two" },
        ],
      },
      { white: 100 },
      { white: 100, black: 0.8 },
    ),
  ),
};

const answers = new Map<string, Correction>();
const answerTo = (name: string): Correction => {
  const correction = answers.get(name) ?? correct(JOBS[name], { wayOut: false });
  answers.set(name, correction);
  return correction;
};

describe.each(Object.entries(JOBS))("%s", (name, job) => {
  it.each(Object.entries(PROMISES))("%s", (_promise, keeps) => {
    keeps(job, answerTo(name));
  });
});

describe("what is said of a job with few toners", () => {
  const obstaclesTo = (name: string) => answerTo(name).obstacles.map(({ kind }) => kind);
  const reasonsIn = (name: string) =>
    Object.fromEntries(answerTo(name).unused.map(({ toner, reason }) => [toner, reason]));
  const poured = (name: string) =>
    Object.fromEntries(answerTo(name).additions.map(({ toner, grams }) => [toner, grams]));

  it("the grams that the panel was made with come back", () => {
    expect(poured("two pours")).toEqual({ yellow: 3, black: 0.6 });
    expect(poured("grams without steps").black).toBeCloseTo(0.6, 3);
    expect(poured("grams without steps").yellow).toBeCloseTo(3, 2);
    expect(poured("nothing")).toEqual({});
    expect(answerTo("nothing").stopReason).toBe("within-tolerance");
  });

  it("what stands in the way is named", () => {
    expect(obstaclesTo("two pours where one is allowed")).toEqual(["pours"]);
    expect(obstaclesTo("more than the cup holds")).toContain("room");
    expect(obstaclesTo("more than there is")).toContain("stock");
    expect(obstaclesTo("a coarse scale")).toEqual(["scale-step"]);
  });

  it("why a toner is not poured is named", () => {
    expect(reasonsIn("two pours where one is allowed")).toMatchObject({ black: "pours", white: "wrong-way" });
    expect(reasonsIn("twins and a let-down")).toMatchObject({ "black-two": "alike", "weak-black": "alike" });
    expect(reasonsIn("two pours")).toMatchObject({ white: "wrong-way" });
  });

  it("other ways are offered where they differ in kind", () => {
    const waysFor = (name: string) =>
      answerTo(name).alternatives.map(({ kind, without, pours }) => [kind, without, pours]);
    expect(waysFor("two pours")).toEqual([]);
    expect(waysFor("more paint than is worth it")).toEqual([
      ["fewer-pours", undefined, 1],
      ["closer", undefined, 3],
    ]);
    expect(answerTo("more paint than is worth it").closest?.grams).toBeGreaterThan(100);
    expect(waysFor("an edge and a blend, the worst").map(([kind]) => kind)).toEqual([
      "fewer-pours",
      "closer",
      "other-toners",
    ]);
    expect(waysFor("twins and a let-down")).toEqual([["other-toners", "black", 1]]);
  });

  it("who lost a tie, and by what, is named", () => {
    expect(answerTo("twins and a let-down").ties).toEqual([
      { toner: "black", insteadOf: ["weak-black"], decidedBy: "grams" },
      { toner: "black", insteadOf: ["black-two"], decidedBy: "order" },
    ]);
    expect(answerTo("two pours").ties).toEqual([]);
  });
});
