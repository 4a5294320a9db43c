import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Correction } from "../../src/correction/correction.js";
import { STEP_PRICES } from "../../src/problem/stepPrices.js";
import { jobOfRecord } from "../../src/record/jobOfRecord.js";
import { jobState } from "../../src/record/jobState.js";
import type { RecordEntry } from "../../src/record/recordEntry.js";
import { refusal } from "../support/refusal.js";
import { horseboxPlan } from "./horseboxPlan.js";

const state = (...entries: readonly RecordEntry[]) =>
  jobState(entries.map((entry, number) => ({ number, at: "2026-03-31T14:05:00.000Z", entry })));

const JOB: RecordEntry = { kind: "job", job: {} };
const pour = (toner: string, grams: number): RecordEntry => ({ kind: "pour", toner, grams });
const CARD: RecordEntry = {
  kind: "card",
  name: "card 1",
  readings: [
    { geometry: "45:0", grid: { start: 400, step: 100, count: 4 }, reflectance: [0.1, 0.2, 0.3, 0.4] },
  ],
};
const answer = (status: Correction["status"], additions: Readonly<Record<string, number>>): RecordEntry => ({
  kind: "answer",
  library: "0.1.0",
  answer: {
    status,
    additions: Object.entries(additions).map(([toner, grams]) => ({ toner, grams })),
  } as unknown as Correction,
});

describe("jobState", () => {
  it("says what is next at every step, also where a job was interrupted", () => {
    const steps: RecordEntry[] = [];
    const then = (entry: RecordEntry) => state(...steps.splice(steps.length, 0, entry), ...steps).next;
    expect(state().next).toEqual({ kind: "start" });
    expect(then(JOB)).toEqual({ kind: "pour", pours: [] });
    expect(then(pour("white", 100))).toEqual({ kind: "read-card" });
    expect(then(CARD)).toEqual({ kind: "correct" });
    expect(then(answer("corrected", { ochre: 4, green: 2 }))).toEqual({
      kind: "pour",
      pours: [
        { toner: "ochre", grams: 4 },
        { toner: "green", grams: 2 },
      ],
    });
    expect(then(pour("ochre", 4.1))).toEqual({ kind: "pour", pours: [{ toner: "green", grams: 2 }] });
    expect(then(pour("green", 0.5))).toEqual({ kind: "pour", pours: [{ toner: "green", grams: 1.5 }] });
    expect(then(pour("green", 1.4))).toEqual({ kind: "read-card" });
    expect(then(CARD)).toEqual({ kind: "correct" });
    expect(then(answer("good-enough", {}))).toEqual({ kind: "done", status: "good-enough" });
  });

  it("the pot is the sum of the pours, in whatever order", () => {
    const pours = fc.array(
      fc.tuple(fc.constantFrom("white", "ochre", "green"), fc.integer({ min: 1, max: 5000 })),
      { minLength: 1, maxLength: 12 },
    );
    fc.assert(
      fc.property(pours, (list) => {
        const entries = list.map(([toner, tenths]) => pour(toner, tenths / 10));
        const { pot } = state(JOB, ...entries);
        for (const [toner, grams] of Object.entries(pot)) {
          const tenths = list.reduce((sum, [id, amount]) => (id === toner ? sum + amount : sum), 0);
          expect(grams).toBe(tenths / 10);
        }
        expect(state(JOB, ...[...entries].reverse()).pot).toEqual(pot);
      }),
    );
  });

  it("keeps for every card the pot that it was sprayed from", () => {
    const { cards, cans } = state(
      JOB,
      { kind: "pour", toner: "white", grams: 100, can: "A" },
      CARD,
      pour("ochre", 5),
      { ...CARD, name: "card 2" },
    );
    expect(cards.map(({ name, pot }) => ({ name, pot }))).toEqual([
      { name: "card 1", pot: { white: 100 } },
      { name: "card 2", pot: { white: 100, ochre: 5 } },
    ]);
    expect(cans).toEqual({ white: "A" });
  });

  it("pouring off takes the same share of everything", () => {
    expect(state(JOB, pour("white", 90), pour("ochre", 10), { kind: "pour-off", grams: 25 }).pot).toEqual({
      white: 67.5,
      ochre: 7.5,
    });
  });

  it("what is withdrawn counts no more", () => {
    expect(
      state(JOB, pour("white", 90), pour("ochre", 100), { kind: "withdraw", entry: 2 }, pour("ochre", 10))
        .pot,
    ).toEqual({ white: 90, ochre: 10 });
  });

  it("refuses what cannot have been", () => {
    expect(refusal(() => state(JOB, JOB))).toEqual({ code: "out-of-range", path: "entry 1" });
    expect(refusal(() => state(JOB, CARD))).toEqual({ code: "out-of-range", path: "entry 1" });
    expect(refusal(() => state(JOB, pour("white", 5), { kind: "pour-off", grams: 5 }))).toEqual({
      code: "out-of-range",
      path: "entry 2",
    });
    for (const entry of [0, 1, 7]) {
      expect(refusal(() => state(JOB, { kind: "withdraw", entry }))).toMatchObject({ path: "entry 1" });
    }
  });
});

describe("a record that others wrote", () => {
  const dated = (...list: readonly object[]) =>
    list.map((entry, number) => ({ number, at: "2026-03-31T14:05:00.000Z", entry })) as never;

  it("may have toners called like properties of every object", () => {
    for (const toner of ["__proto__", "constructor", "toString"]) {
      const pour = { kind: "pour", toner, grams: 1.5 };
      const { pot } = jobState(dated({ kind: "job", job: {} }, pour, pour));
      expect(Object.entries(pot)).toEqual([[toner, 3]]);
    }
  });

  it.each([
    [{}, "missing", "entry 1: additions"],
    [{ additions: [{ toner: "white" }] }, "missing", "entry 1: additions[0].grams"],
    [{ additions: [null] }, "wrong-type", "entry 1: additions[0]"],
  ])("may have no answer that is none: %j", (answer, code, path) => {
    const entries = dated({ kind: "job", job: {} }, { kind: "answer", library: "0", answer });
    expect(refusal(() => jobState(entries))).toEqual({ code, path });
  });
});

describe("the job of a planned pot", () => {
  it("has the prices and the belief of its plan", () => {
    const { toners, ...plan } = horseboxPlan();
    const own = { ...plan, prices: { blend: 1000 }, belief: { strengthSd: 0.3 } };
    const stage = { panels: [plan.panels[0].name], sprayGrams: 50, potGrams: 50 };
    const pourNow = [{ toner: toners.toners[0].id, grams: 50 }];
    const state = jobState(
      [
        { kind: "plan", plan: own },
        { kind: "planned", library: "0.1.0", planned: { pots: [{ pourNow, stages: [stage] }] } },
        { kind: "pour", ...pourNow[0] },
        { kind: "card", name: "card 1", readings: plan.panels[0].readings },
      ].map((entry, number) => ({ number, at: "", entry: entry as unknown as RecordEntry })),
    );
    const { prices, belief } = jobOfRecord(state, toners);
    expect([prices.blend, prices.card, belief.strengthSd]).toEqual([1000, STEP_PRICES.card, 0.3]);
  });
});
