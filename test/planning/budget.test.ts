import { describe, expect, it } from "vitest";
import { planHoldBack } from "../../src/planning/holdBack/planHoldBack.js";
import { learnStrengths } from "../../src/planning/learning/learnStrengths.js";
import { predict } from "../../src/prediction/predict.js";
import { horseboxToners } from "../fixtures/horsebox.js";
import { refusal } from "../support/refusal.js";
import { horseboxPlan } from "./horseboxPlan.js";

const limits = ({ warnings }: { readonly warnings: readonly { code: string; message: string }[] }) =>
  warnings.filter(({ code }) => code === "work-limit").map(({ message }) => message);

describe("the work of a plan", () => {
  const job = horseboxPlan();

  it("suffices for the shipped one ten times over, and more changes nothing", () => {
    const plan = planHoldBack(job, { maxWork: 3e8 });
    expect(limits(plan)).toEqual([]);
    expect(planHoldBack(job)).toEqual(plan);
  });

  it.each([0, 1e6, 3e7])(
    "of %d steps ends soon, the same every time, and says what was cut off",
    (maxWork) => {
      const plan = planHoldBack(job, { maxWork });
      expect(limits(plan).join()).toContain("worlds drawn and played through");
      expect(plan.draws).toBeLessThan(1000);
      expect(plan.draws).toBeGreaterThanOrEqual(200);
      expect(planHoldBack(job, { maxWork })).toEqual(plan);
    },
  );

  it("ends where the host asks it to", () => {
    const plan = planHoldBack(job, { shouldStop: () => true });
    expect(limits(plan)).toHaveLength(1);
  });

  it("is a number of steps", () => {
    expect(refusal(() => planHoldBack(job, { maxWork: -1 }))).toEqual({
      code: "out-of-range",
      path: "options.maxWork",
    });
  });
});

describe("the work of learning", () => {
  const toners = horseboxToners();
  const viewing = { observer: "1964-10", illuminants: [{ name: "D65" }] } as const;
  const cards = [9, 14].map((green, c) => {
    const pot = { white: 150, ochre: 14, green };
    return { name: `card ${c}`, pot, readings: predict({ toners, viewing, pot }).readings };
  });
  const job = { toners, pots: [{ name: "job", cards }] };

  it("suffices, unless there is next to none: then cards stay open, teach nothing, and it is said", () => {
    const learnt = learnStrengths(job);
    expect(limits(learnt)).toEqual([]);
    expect(learnt.cards.map(({ verdict }) => verdict)).toEqual(["believed", "believed"]);
    const none = learnStrengths(job, { maxWork: 0 });
    expect(none.cards.map(({ verdict, taught }) => [verdict, taught])).toEqual([
      ["open", []],
      ["open", []],
    ]);
    expect(none.toners.toners).toEqual(toners.toners);
    expect(limits(none).join()).toContain("what the cards of job say");
  });
});
