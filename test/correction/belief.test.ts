import { describe, expect, it } from "vitest";
import { correct } from "../../src/correction/correct.js";
import type { Job } from "../../src/problem/job.js";
import { horseboxJob } from "../fixtures/horsebox.js";
import { refusal } from "../support/refusal.js";

const job = horseboxJob();
const LEAN = { alternatives: false, wayOut: false } as const;
const poured = (one: Job) =>
  Object.fromEntries(correct(one, LEAN).additions.map(({ toner, grams }) => [toner, grams]));
const withSd = (id: string, strengthSd: number): Job => ({
  ...job,
  toners: {
    ...job.toners,
    toners: job.toners.toners.map((toner) => (toner.id === id ? { ...toner, strengthSd } : toner)),
  },
});

describe("what is believed of cans and cards", () => {
  it("decides what is poured: the less certain a can outside the pot, the less of it", () => {
    expect(job.pot.yellow ?? 0).toBe(0);
    const [sure, doubted] = [0.1, 0.3].map((sd) => poured(withSd("yellow", sd)));
    expect(doubted).not.toEqual(sure);
    expect(doubted.yellow ?? 0).toBeLessThan(sure.yellow);
  });

  it("depends on no order of the cans", () => {
    const toners = { ...job.toners, toners: [...job.toners.toners].reverse() };
    expect(poured({ ...job, toners })).toEqual(poured(job));
  });

  it("pours nothing from a pot that was noted tenfold, and names the slip", () => {
    const { status, stopReason, additions, warnings, card } = correct(
      { ...job, pot: { ...job.pot, green: 90 } },
      LEAN,
    );
    expect({ status, stopReason, additions }).toEqual({
      status: "undetermined",
      stopReason: "card-not-from-pot",
      additions: [],
    });
    expect(warnings.map(({ code }) => code)).toContain("card-not-from-pot");
    expect(card.explanations.map(({ fault }) => fault)).toContainEqual(
      expect.objectContaining({ kind: "tenfold", toner: "green", noted: 90 }),
    );
  });

  it("takes one card among cards as the card, and refuses both at once or the card of another pot", () => {
    const { card, ...rest } = job;
    expect(poured({ ...rest, cards: [card] })).toEqual(poured(job));
    expect(refusal(() => correct({ ...job, cards: [card] }))).toEqual({ code: "duplicate", path: "card" });
    const other = { ...card, pot: { ...job.pot, green: 1 } };
    expect(refusal(() => correct({ ...rest, cards: [other] })).path).toBe("cards[0].pot");
  });
});
