import { Ajv2020 as Ajv } from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import correctionSchema from "../../docs/schemas/correction.json" with { type: "json" };
import { correct } from "../../src/correction/correct.js";
import { adviseNextStep, type NextStepOptions } from "../../src/planning/nextStep/adviseNextStep.js";
import type { NextStep } from "../../src/planning/nextStep/nextStep.js";
import type { Job } from "../../src/problem/job.js";
import { STEP_PRICES } from "../../src/problem/stepPrices.js";
import { nextStepText } from "../../src/report/correction/nextStepText.js";
import { horseboxJob } from "../fixtures/horsebox.js";
import { refusal } from "../support/refusal.js";

const job = horseboxJob();
const card = job.card.readings[0];
const door = job.targets[0].readings[0];

/** One edge, so far from the card as a share of the way to the door. */
const awayBy = (share: number): Job => ({
  ...job,
  targets: [
    {
      name: "door",
      readings: [
        {
          ...card,
          reflectance: Array.from(card.reflectance, (r, b) => (1 - share) * r + share * door.reflectance[b]),
        },
      ],
    },
  ],
});
const farLighter: Job = {
  ...job,
  targets: [
    {
      name: "door",
      readings: [{ ...door, reflectance: Array.from(door.reflectance, (r) => Math.min(0.95, 1.6 * r)) }],
    },
  ],
};

const potGrams = Object.values(job.pot).reduce((sum, grams) => sum + grams, 0);
const asked = { draws: 100, drawsOfReturn: 20 } as const;
const advise = (one: Job, options: NextStepOptions = {}): NextStep =>
  adviseNextStep(one, correct(one, { alternatives: false, wayOut: false, forecast: asked }), {
    forecast: asked,
    ...options,
  });
const lossOf = ({ choices }: NextStep, step: string) =>
  choices.find((choice) => choice.step === step)?.expectedLoss ?? Number.NaN;

describe("the stop rule", () => {
  it("paints a match, pours where the card is off, begins anew where adding leads nowhere", () => {
    expect(advise(awayBy(0)).step).toBe("good-enough");
    expect(advise(job).step).toBe("pour");
    expect(advise(farLighter).step).toBe("new-pot");
  });

  it("pours off where from less of the pot a match is reached and not from all of it", () => {
    const full: Job = { ...job, limits: { potMaxGrams: 1.02 * potGrams } };
    const correction = correct(full, { alternatives: false, forecast: asked });
    expect(correction.status).toBe("out-of-reach");
    const { pourOff } = correction.wayOut ?? {};
    if (!pourOff) throw new Error("nothing to pour off");
    const next = adviseNextStep(full, correction, { forecast: asked });
    expect(next).toMatchObject({ step: "pour-off", gramsOff: pourOff.grams });
    expect(next.grams).toEqual(
      Object.fromEntries(pourOff.then.additions.map(({ toner, grams }) => [toner, grams])),
    );
    expect(lossOf(next, "pour-off")).toBeLessThan(lossOf(next, "new-pot"));
    expect(nextStepText(next)).toMatch(/^Next: pour some off, then add \([\d.]+ g off, /);
    // Paint so dear that none is thrown away.
    const dear = adviseNextStep(full, correction, { forecast: asked, prices: { gram: 1000 } });
    expect(["pour-off", "new-pot"]).not.toContain(dear.step);
  });

  it("follows the prices: dear cards are not sprayed for little, cheap ones are, cheap blending is done", () => {
    const off = awayBy(0.17);
    expect(advise(off).step).toBe("pour");
    expect(advise(off, { prices: { card: 200, blend: 20 } }).step).toBe("blend");
    expect(advise(off, { prices: { blend: 1 } }).step).toBe("blend");
    const own = { ...off, prices: { blend: 1 } };
    expect(advise(own).prices).toEqual({ ...STEP_PRICES, blend: 1 });
    expect([advise(own), advise(own, { prices: {} })].map(({ step }) => step)).toEqual(["blend", "pour"]);
    const just = awayBy(0.12);
    expect(["good-enough", "re-measure"]).toContain(advise(just).step);
    const cheap = advise(just, { prices: { card: 0.1, gram: 0 } });
    expect(cheap.step).toBe("pour");
    expect(Object.values(cheap.grams ?? {}).some((grams) => grams > 0)).toBe(true);
  });

  it("reads again where that is cheap and the verdict hangs on the reading, and not where it cannot change it", () => {
    const near = { ...awayBy(0.1), belief: { readingSd: 0.004, offsetSd: 0.002 } };
    const correction = correct(near, { alternatives: false, wayOut: false });
    const advised = (readings?: number) =>
      adviseNextStep(near, correction, {
        forecast: asked,
        prices: { reading: 0.1, card: 60 },
        ...(readings && { readings }),
      });
    expect(advised().step).toBe("re-measure");
    expect(advised(1)).toEqual(advised());
    // The mean of many readings is not moved by one more.
    expect(advised(1000).step).not.toBe("re-measure");
    expect(advise(awayBy(0), { prices: { reading: 30 } }).step).toBe("good-enough");
  });

  it("reads again, before anything else, a card that cannot come from what was poured, and one that tells nothing", () => {
    const doubted = advise({ ...job, pot: { ...job.pot, black: 40 } });
    expect(doubted.step).toBe("re-measure");
    expect(doubted.choices).toEqual([]);

    const dark = { ...card, reflectance: new Array(31).fill(0) };
    const blind = advise({ ...job, card: { readings: [dark] } });
    expect(blind.step).toBe("re-measure");
    expect(blind.choices).toEqual([]);
    expect(blind.withinNow).toBeNull();
  });

  it("never blends where there is no edge, and stops only within tolerance", () => {
    const blends = {
      ...awayBy(0.3),
      targets: awayBy(0.3).targets.map((target) => ({ ...target, role: "blend" as const })),
    };
    expect(advise(blends).choices.map(({ step }) => step)).not.toContain("blend");
    expect(advise(awayBy(0.3)).choices.map(({ step }) => step)).not.toContain("good-enough");
  });

  it("the step is the one of least expected loss, and losses grow with the prices they hold", () => {
    const { step, choices, prices } = advise(job);
    expect(prices).toEqual(STEP_PRICES);
    expect(choices[0].step).toBe(step);
    for (let i = 1; i < choices.length; i++) {
      expect(choices[i].expectedLoss).toBeGreaterThanOrEqual(choices[i - 1].expectedLoss);
    }
    for (const { price, expectedLoss } of choices) expect(expectedLoss).toBeGreaterThanOrEqual(price);
    const dearer = advise(job, { prices: { redo: 600 } });
    for (const name of ["pour", "blend", "new-pot"]) {
      expect(lossOf(dearer, name)).toBeGreaterThanOrEqual(lossOf(advise(job), name));
    }
    // A free job: nothing done again costs anything, so the match that is there is taken.
    expect(lossOf(advise(awayBy(0.1), { prices: { redo: 0 } }), "good-enough")).toBe(0);
  });

  it("is a record that fits its schema, and a text", () => {
    const fits = new Ajv({ strict: true, allowUnionTypes: true }).compile(correctionSchema);
    for (const one of [job, awayBy(0), farLighter]) {
      const nextStep = advise(one);
      const record = { ...correct(one), nextStep };
      expect(fits(JSON.parse(JSON.stringify(record))), JSON.stringify(fits.errors)).toBe(true);
      expect(nextStepText(nextStep)).toMatch(/^Next: /);
      expect(nextStepText(nextStep)).not.toMatch(/NaN|undefined|Infinity/);
    }
    expect(advise(job)).toEqual(advise(job));
  });

  it("refuses prices and options that it does not know, with their place", () => {
    expect(refusal(() => advise(job, { prices: { card: -1 } }))).toEqual({
      code: "out-of-range",
      path: "options.prices.card",
    });
    expect(refusal(() => advise(job, { readings: 0 }))).toEqual({
      code: "out-of-range",
      path: "options.readings",
    });
    expect(refusal(() => advise(job, { price: {} } as NextStepOptions))).toEqual({
      code: "unknown-key",
      path: "options.price",
    });
  });
});
