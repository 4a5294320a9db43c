import Ajv from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import holdBackSchema from "../../docs/schemas/hold-back.json";
import { planHoldBack } from "../../src/planning/holdBack/planHoldBack.js";
import type { PlanJob } from "../../src/planning/holdBack/planJob.js";
import { horseboxPlan } from "./horseboxPlan.js";

const job = horseboxPlan();
const plan = planHoldBack(job);
const isPlan = new Ajv({ strict: true, allowUnionTypes: true }).compile(holdBackSchema);
const fits = (value: unknown) => {
  expect(isPlan(JSON.parse(JSON.stringify(value))), JSON.stringify(isPlan.errors)).toBe(true);
};

describe("planHoldBack, on the shipped example", () => {
  it("finds the formula that the panels were painted with, and says why not the other", () => {
    expect(plan.status).toBe("planned");
    expect(plan.formula).toBe("sage green, first years");
    const [first, second] = plan.formulas;
    expect(first).toMatchObject({ formula: plan.formula, explains: true, logOdds: 0, hasReading: true });
    expect(second.explains).toBe(false);
    expect(second.logOdds).toBeLessThan(-10);
    fits(plan);
  });

  it("sprays the most faded panel first from one pot", () => {
    expect(plan.strategy).toBe("chain");
    expect(plan.pots).toHaveLength(1);
    expect(plan.pots[0].panels[0]).toBe("roof");
    expect([...plan.pots[0].panels].sort()).toEqual(["near-side door", "roof", "tail ramp"]);
    expect(plan.compromise.prices.some(({ allowanceUsed }) => allowanceUsed > 1)).toBe(true);
  });

  it("keeps back some of every toner that fades and never all of it, in whole steps", () => {
    const [{ pourNow, held, full }] = plan.pots;
    for (const { toner, grams, keptBackGrams } of pourNow) {
      expect(grams).toBeGreaterThan(0);
      expect(grams * 10).toBeCloseTo(Math.round(grams * 10), 6);
      if (["green", "yellow"].includes(toner)) expect(keptBackGrams).toBeGreaterThan(1);
    }
    expect(held.reachProbability).toBeGreaterThanOrEqual(0.95);
    expect(full.reachProbability).toBeLessThan(0.5);
    expect(held.wasteGrams).toBeLessThan(full.wasteGrams / 2);
  });

  it("finds the fades that the example was made with, within their intervals (one case, no coverage claim)", () => {
    const made = { roof: [0.66, 0.48], "near-side door": [0.92, 0.83], "tail ramp": [0.88, 0.77] };
    for (const [name, fractions] of Object.entries(made)) {
      const panel = plan.panels.find((one) => one.panel === name);
      ["green", "yellow"].forEach((id, i) => {
        const found = panel?.remaining.find(({ toner }) => toner === id);
        expect(found?.low).toBeLessThan(fractions[i]);
        expect(found?.high).toBeGreaterThan(fractions[i]);
      });
    }
  });

  it("is the same each time, and another with another seed", () => {
    expect(planHoldBack(job)).toEqual(plan);
    expect(planHoldBack({ ...job, options: { seed: 7 } }).pots).not.toEqual(plan.pots);
  });
});

describe("planHoldBack", () => {
  const one = (change: Partial<PlanJob>) => planHoldBack({ ...job, ...change });
  const codes = (change: Partial<PlanJob>) => one(change).warnings.map(({ code }) => code);

  it("says unexplained, not error, when told to plan with the wrong formula", () => {
    const wrong = one({ formula: "sage green, later years" });
    expect(wrong.status).toBe("unexplained");
    expect(wrong.warnings.map(({ code }) => code)).toContain("unexplained-panel");
    fits(wrong);
  });

  it("serves panels that look alike with one colour", () => {
    const [, door] = job.panels;
    const twins = ["left", "right"].map((name) => ({ ...door, name }));
    const alike = one({ panels: twins });
    expect(alike.strategy).toBe("one-colour");
    expect(alike.pots).toHaveLength(1);
    expect(alike.pots[0].stages).toHaveLength(1);
    fits(alike);
  });

  it("needs more pots where no pot may grow", () => {
    const stiff = one({ options: { mostGrowth: 1 } });
    expect(stiff.strategy).toBe("fork");
    expect(stiff.pots.length).toBeGreaterThan(1);
    const sprayed = stiff.pots.flatMap(({ panels }) => panels);
    expect([...sprayed].sort()).toEqual(job.panels.map(({ name }) => name).sort());
    const paint = stiff.pots.reduce((sum, { wantedGrams }) => sum + wantedGrams, 0);
    expect(paint).toBeGreaterThanOrEqual(job.wantedGrams - 1e-6);
    fits(stiff);
  });

  it("pours less now when the cans are less certain", () => {
    const unsure = {
      ...job.toners,
      toners: job.toners.toners.map((toner) => ({ ...toner, strengthSd: 0.3 })),
    };
    const amount = (from: ReturnType<typeof one>, id: string) =>
      from.pots[0].pourNow.find(({ toner }) => toner === id)?.grams ?? 0;
    const careful = one({ toners: unsure });
    expect(amount(careful, "green")).toBeLessThan(amount(plan, "green"));
    expect(amount(careful, "yellow")).toBeGreaterThan(0);
  });

  it("warns of stock that runs short and of a scale too coarse for a strong toner", () => {
    expect(codes({ limits: { ...job.limits, stockGrams: { green: 1 } } })).toContain("stock-short");
    expect(codes({ wantedGrams: 10, limits: { scaleStepGrams: 0.5 } })).toContain("scale-too-coarse");
  });

  it("answers for less paint than the scale can weigh, and for panels darker or lighter than any paint", () => {
    const [panel] = job.panels;
    const flat = (value: number) => [
      {
        name: "flat",
        readings: panel.readings.map((one) => ({ ...one, reflectance: new Array(31).fill(value) })),
      },
    ];
    for (const odd of [{ wantedGrams: 0.01 }, { panels: flat(0) }, { panels: flat(0.99) }]) {
      const answer = one({ ...odd, options: { draws: 200 } });
      fits(answer);
      expect(JSON.stringify(answer)).not.toContain("null");
    }
    expect(() => one({ formulas: [{ name: "clear", grams: { clear: 10 } }] })).toThrow(
      /^formulas\[0\].grams: .*\[no-pigment\]$/,
    );
  });

  it("refuses more paint than the cup holds, twins, unknown toners and misspelt options with their place", () => {
    const refused = (change: object) => () => planHoldBack({ ...job, ...change } as PlanJob);
    expect(refused({ wantedGrams: 900 })).toThrow(/^wantedGrams: .*\[out-of-range\]$/);
    expect(refused({ panels: [job.panels[0], job.panels[0]] })).toThrow(
      /^panels\[1\].name: .*\[duplicate\]$/,
    );
    expect(refused({ formulas: [{ name: "x", grams: { gold: 1 } }] })).toThrow(
      /^formulas\[0\].grams.gold: .*\[unknown-toner\]$/,
    );
    expect(refused({ formulas: [{ name: "x", grams: {} }] })).toThrow(/\[no-pigment\]$/);
    expect(refused({ options: { probability: 0.9 } })).toThrow(/^options.probability: .*\[unknown-key\]$/);
    expect(refused({ blendAllowance: { tint: 1 } })).toThrow(/^blendAllowance.tint: .*\[unknown-key\]$/);
    expect(refused({ fadePriors: { green: { meanLoss: -1, sdLoss: 1 } } })).toThrow(
      /^fadePriors.green.meanLoss: .*\[out-of-range\]$/,
    );
    expect(refused({ formula: "no such" })).toThrow(/^formula: .*\[unknown-word\]$/);
  });
});
