import { describe, expect, it } from "vitest";
import { planHoldBack } from "../../src/planning/holdBack/planHoldBack.js";
import { holdBackText } from "../../src/report/holdBackText.js";
import { massText } from "../../src/report/massText.js";
import { tonerNames } from "../../src/report/tonerName.js";
import { horseboxPlan } from "../planning/horseboxPlan.js";

const job = horseboxPlan();
const plan = planHoldBack(job);

describe("holdBackText", () => {
  it("gives the headline first, every toner's grams to pour and to keep back, and the caution last", () => {
    const text = holdBackText(plan, tonerNames(job.toners));
    expect(text).toMatch(/^Planned from "sage green, first years": one pot serves the panels in turn/);
    const [{ pourNow }] = plan.pots;
    for (const { toner, grams, keptBackGrams } of pourNow) {
      const name = tonerNames(job.toners)[toner];
      const row = text.split("\n").find((line) => line.startsWith(`  ${name} `) && line.includes(" g "));
      expect(row).toContain(`${grams.toFixed(1)} g`);
      expect(row).toContain(`${keptBackGrams.toFixed(1)} g`);
    }
    expect(text.trimEnd().split("\n\n").at(-1)).toMatch(/isocyanates.*breathing.*safety data sheet/s);
  });

  it("shows ounces where asked, and keeps the same amounts", () => {
    const text = holdBackText(plan, {}, { unit: "oz" });
    expect(text).toContain(`${(Math.round(plan.pots[0].wantedGrams) / 28.349523125).toFixed(3)} oz`);
    expect(text).not.toMatch(/\d g\b/);
  });

  it("shows drops of what is calibrated, grams of the rest, and says which", () => {
    const [first, ...others] = plan.pots[0].pourNow;
    const names = tonerNames(job.toners);
    const text = holdBackText(plan, names, { unit: "drops", gramsPerDrop: { [first.toner]: 0.02 } });
    expect(text).toContain(`${(first.grams / 0.02).toFixed(1).replace(".0", "")} drops`);
    const note = text.split("\n").find((line) => line.includes("gramsPerDrop"));
    expect(note).not.toContain(names[first.toner]);
    for (const { toner, grams } of others) {
      expect(text).toContain(`${grams.toFixed(1)} g`);
      expect(note).toContain(names[toner]);
    }
  });

  it("says first that nothing is to be trusted where the formula explains nothing", () => {
    const wrong = planHoldBack({ ...job, formula: "sage green, later years" });
    expect(holdBackText(wrong).split("\n")[0]).toMatch(/does not explain every panel: trust nothing/);
  });
});

describe("massText", () => {
  it("has the ounce of the 1959 agreement", () => {
    expect(massText(28.349523125, { unit: "oz" })).toBe("1.000 oz");
    expect(massText(12.34, { unit: "g" })).toBe("12.34 g");
  });

  it.each([
    ["whole drops", 0.6, "12 drops"],
    ["one drop", 0.05, "1 drop"],
    ["no whole number of drops as none", 0.07, "1.4 drops"],
    ["none", 0, "0 drops"],
  ])("counts %s", (_, grams, text) => {
    const display = { unit: "drops", gramsPerDrop: { black: 0.05 } } as const;
    expect(massText(grams, display, "black")).toBe(text);
    expect(massText(grams, display, "white")).toMatch(/ g$/);
    expect(massText(grams, display)).toMatch(/ g$/);
  });
});
