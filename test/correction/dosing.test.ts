import { describe, expect, it } from "vitest";
import { correct } from "../../src/correction/correct.js";
import type { Limits } from "../../src/problem/limits.js";
import { horseboxToners } from "../fixtures/horsebox.js";
import { withoutDoubt } from "../fixtures/noDoubt.js";
import { between } from "./contract/jobs.js";

const all = horseboxToners();
const onlyBlack = { stockGrams: { white: 0, yellow: 0 } };
const toners = { ...all, toners: all.toners.filter(({ id }) => ["white", "black", "yellow"].includes(id)) };
const pot = { white: 100 };
const pours = (panel: Readonly<Record<string, number>>, limits: Limits) =>
  correct(withoutDoubt(between(toners, pot, { ...pot, ...panel }, { limits })), { wayOut: false });

describe("drops", () => {
  it("gives back the drops that a panel was made with, beside grams on the scale", () => {
    const { additions, status } = pours(
      { black: 37 * 0.021, yellow: 2.3 },
      { gramsPerDrop: { black: 0.021 } },
    );
    expect(status).toBe("corrected");
    expect(additions.map(({ toner, grams, drops }) => [toner, grams, drops])).toEqual([
      ["yellow", 2.3, null],
      ["black", 0.777, 37],
    ]);
  });

  it("are finer than the scale's step, and so come nearer", () => {
    const limits = { ...onlyBlack, scaleStepGrams: 0.1 };
    const dropped = pours({ black: 0.13 }, { ...limits, gramsPerDrop: { black: 0.01 } });
    expect(dropped.additions).toMatchObject([{ toner: "black", grams: 0.13, drops: 13 }]);
    expect(dropped.weightedDeltaE00.after).toBeLessThan(1e-6);
    const weighed = pours({ black: 0.13 }, limits);
    expect(weighed.additions).toMatchObject([{ toner: "black", grams: 0.1, drops: null }]);
    expect(weighed.weightedDeltaE00.after).toBeGreaterThan(0.1);
  });
});

describe("drops beside grams that nothing rounds", () => {
  const limits = { scaleStepGrams: 0, gramsPerDrop: { black: 0.5 } };

  it("are whole: pot and colours belong to what is poured", () => {
    const { additions, potAfter } = pours(
      { black: 2.632, yellow: 2.3 },
      { ...limits, stockGrams: { white: 0 } },
    );
    const black = additions.find(({ toner }) => toner === "black");
    expect(black).toMatchObject({ grams: 2.5, drops: 5 });
    expect(potAfter.black).toBe(2.5);
    expect(additions.find(({ toner }) => toner === "yellow")).toMatchObject({ drops: null });
  });

  it("are whole in every choice, in the first pour and over many panels", () => {
    for (let n = 1; n <= 20; n++) {
      const panel = { ...pot, black: 0.37 * n, yellow: (7 * n) % 5 };
      const answer = correct(between(toners, pot, panel, { limits }), {
        wayOut: false,
        forecast: true,
      });
      const choices = [...answer.byPours, ...answer.alternatives, answer].map(({ additions }) => additions);
      const grams = choices.flatMap((one) => one.filter(({ toner }) => toner === "black"));
      const first = answer.forecast?.pours.filter(({ toner }) => toner === "black") ?? [];
      for (const value of [...grams.map((one) => one.grams), ...first.map((one) => one.firstGrams)]) {
        expect(value / 0.5, `panel ${n}`).toBe(Math.round(value / 0.5));
      }
    }
  });
});

describe("the least pour", () => {
  it.each([0, 0.1])("is poured where a little less would be best, scale step %d", (scaleStepGrams) => {
    const { additions } = pours({ black: 1.9 }, { ...onlyBlack, scaleStepGrams, minPourGrams: 2 });
    expect(additions.map(({ grams }) => grams)).toEqual([2]);
  });

  it.each([0, 0.1])("is not poured where nothing at all is nearer, scale step %d", (scaleStepGrams) => {
    const { additions, status, obstacles } = pours(
      { black: 0.2 },
      { ...onlyBlack, scaleStepGrams, minPourGrams: 2 },
    );
    expect(additions).toEqual([]);
    expect(status).toBe("out-of-reach");
    expect(obstacles).toEqual([{ kind: "scale-step" }]);
  });

  it("does not bind a toner that is dosed in drops", () => {
    const { additions } = pours(
      { black: 0.2 },
      { ...onlyBlack, minPourGrams: 2, gramsPerDrop: { black: 0.02 } },
    );
    expect(additions).toMatchObject([{ toner: "black", grams: 0.2, drops: 10 }]);
  });
});
