import { describe, expect, it } from "vitest";
import { correct } from "../../src/correction/correct.js";
import type { Limits } from "../../src/problem/limits.js";
import type { Grams } from "../../src/toners/pot.js";
import { horseboxToners } from "../fixtures/horsebox.js";
import { withoutDoubt } from "../fixtures/noDoubt.js";
import { between } from "./contract/jobs.js";

const all = horseboxToners();
const twin = (id: string, of: string) => ({ ...all.toners.filter((toner) => toner.id === of)[0], id });
/** A black, its twin, which comes later by its id, and a let-down of both. */
const toners = { ...all, toners: [...all.toners, twin("black-two", "black")] };

/** Of twins that are both doubted it is safer to pour some of each: where nothing is, they are a tie. */
const jobOf = (pot: Grams, limits: Limits = {}) =>
  between(toners, pot, { ...pot, black: (pot.black ?? 0) + 0.8 }, { limits });
const answer = (pot: Grams, limits: Limits = {}) =>
  correct(withoutDoubt(jobOf(pot, limits)), { wayOut: false });

describe("ties", () => {
  it("go to the first id where nothing else decides, and each loser has its own reason", () => {
    const { additions, ties } = answer({ white: 100 });
    expect(additions).toMatchObject([{ toner: "black", grams: 0.8 }]);
    expect(ties).toContainEqual({ toner: "black", insteadOf: ["black-two"], decidedBy: "order" });
    const weak = ties.find(({ insteadOf }) => insteadOf.includes("weak-black"));
    if (weak) expect(weak.decidedBy).toBe("grams");
  });

  it("go to the toner that is in the pot already", () => {
    const { additions, ties } = answer({ white: 100, "black-two": 0.5 });
    expect(additions).toMatchObject([{ toner: "black-two", grams: 0.8 }]);
    expect(ties).toContainEqual({ toner: "black-two", insteadOf: ["black"], decidedBy: "recipe" });
  });

  it("go to the toner of which enough stays in stock, even against one in the pot", () => {
    const { additions, ties } = answer({ white: 100, black: 0.5 }, { stockGrams: { black: 0.9 } });
    expect(additions).toMatchObject([{ toner: "black-two", grams: 0.8 }]);
    expect(ties).toContainEqual({ toner: "black-two", insteadOf: ["black"], decidedBy: "stock" });
  });

  it("are none where both twins may be off: poured by halves they risk less", () => {
    const { additions, ties } = correct(jobOf({ white: 100 }), { wayOut: false });
    const twins = additions.map(({ toner }) => toner).sort();
    expect(twins).toEqual(["black", "black-two"]);
    expect(additions[0].grams).toBeCloseTo(additions[1].grams, 6);
    expect(ties.flatMap(({ insteadOf }) => insteadOf)).not.toContain("black-two");
  });

  it("are none where only one toner does it", () => {
    const pot = { white: 100 };
    const job = between(all, pot, { ...pot, "red-oxide": 2 });
    expect(correct(job).ties).toEqual([]);
  });
});
